package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// writeWhole writes a file whole or not at all: beside its place under another
// name first, then moved there. Unless replace is set, a file that is there
// already is left alone. Its errors are *writeError.
func writeWhole(name string, data []byte, replace bool, hint string) (err error) {
	if err := free(name, replace, hint); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*")
	if err != nil {
		return &writeError{fmt.Sprintf("%s cannot be written: %v", name, cause(err)), "", err}
	}
	defer func() {
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	// CreateTemp keeps others from reading; a result is an ordinary file.
	const ordinary = 0o644
	_, err = f.Write(data)
	err = errors.Join(err, f.Chmod(ordinary), f.Close())
	if err == nil {
		if err := free(name, replace, hint); err != nil {
			os.Remove(f.Name())
			return err
		}
		err = os.Rename(f.Name(), name)
	}
	if err != nil {
		return &writeError{fmt.Sprintf("%s cannot be written: %v", name, cause(err)), "", err}
	}
	return nil
}

// free makes sure that a name may be written to.
func free(name string, replace bool, hint string) error {
	if replace {
		return nil
	}
	if _, err := os.Lstat(name); err == nil {
		return &writeError{name + " is there already and is left alone", hint, fs.ErrExist}
	}
	return nil
}
