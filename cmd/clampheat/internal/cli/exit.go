package cli

import (
	"context"
	"errors"
	"fmt"
	"io"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/materials"
	"clampheat/scenarios"
	"clampheat/scenarios/study"
)

// Exit statuses, as the help of the program lists them.
const (
	exitFine     = 0
	exitPassed   = 1
	exitInput    = 2
	exitNoAnswer = 3
	exitWrite    = 4
)

// usageError is a mistake on the command line, with what to do about it.
type usageError struct {
	text string
	hint string
}

func (e *usageError) Error() string { return e.text }

// inputError is a file that cannot be read.
type inputError struct {
	text string
	hint string
	err  error
}

func (e *inputError) Error() string { return e.text }
func (e *inputError) Unwrap() error { return e.err }

// writeError is an output that could not be written.
type writeError struct {
	text string
	hint string
	err  error
}

func (e *writeError) Error() string { return e.text }
func (e *writeError) Unwrap() error { return e.err }

// statusError ends a command that has said all it has to say.
type statusError struct{ status int }

func (e *statusError) Error() string { return fmt.Sprintf("exit status %d", e.status) }

// status maps an error to the exit status and prints it.
func status(stderr io.Writer, err error) int {
	if err == nil {
		return exitFine
	}
	var (
		said     *statusError
		usage    *usageError
		input    *inputError
		write    *writeError
		problems *scenarios.Problems
		problem  scenarios.Problem
		unknown  *materials.UnknownError
		example  *scenarios.UnknownExampleError
		asked    *study.InputError
	)
	switch {
	case errors.As(err, &said):
		return said.status
	case errors.As(err, &usage):
		complain(stderr, usage.text, usage.hint)
		return exitInput
	case errors.As(err, &input):
		complain(stderr, input.text, input.hint)
		return exitInput
	case errors.As(err, &write):
		complain(stderr, write.text, write.hint)
		return exitWrite
	case errors.As(err, &problems):
		fmt.Fprintln(stderr, problems.Error())
		complain(stderr, mistakes(problems.List), "")
		return exitInput
	case errors.As(err, &problem):
		fmt.Fprintln(stderr, problem.Error())
		return exitInput
	case errors.As(err, &unknown), errors.As(err, &example):
		complain(stderr, err.Error(), "")
		return exitInput
	case errors.As(err, &asked):
		complain(stderr, asked.Text, asked.Hint)
		return exitInput
	case errors.Is(err, context.Canceled):
		complain(stderr, "interrupted before there was an answer", "")
		return exitNoAnswer
	}
	// What is left is a search that ended without an answer.
	complain(stderr, err.Error(), "")
	return exitNoAnswer
}

// mistakes counts the problems of a file.
func mistakes(list []scenarios.Problem) string {
	n, file := 0, ""
	for _, p := range list {
		if p.Kind != scenarios.Warning {
			n++
		}
		file = p.File
	}
	if n == 1 {
		return "1 mistake in " + file
	}
	return fmt.Sprintf("%d mistakes in %s", n, file)
}

// complain prints an error and its hint.
func complain(stderr io.Writer, text, hint string) {
	fmt.Fprint(stderr, texttable.Wrap("clampheat: error: ", text, width))
	if hint != "" {
		fmt.Fprint(stderr, texttable.Wrap("clampheat: hint: ", hint, width))
	}
}
