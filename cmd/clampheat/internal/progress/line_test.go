package progress

import (
	"bytes"
	"strings"
	"testing"
	"time"
)

func TestLine(t *testing.T) {
	var w bytes.Buffer
	now := time.Unix(0, 0)
	l := newLine(&w, "soak", func() time.Time { return now })
	l.Show(0.1)
	if w.Len() > 0 {
		t.Fatalf("a short computation shows %q", w.String())
	}
	now = now.Add(time.Second)
	l.Show(0.25)
	if got, want := w.String(), "\rsoak  25 %, 3s left"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	l.Show(0.26) // at once: too soon
	if n := strings.Count(w.String(), "\r"); n != 1 {
		t.Errorf("%d updates within a tenth of a second", n)
	}
	l.Done()
	if !strings.HasSuffix(w.String(), " \r") {
		t.Errorf("the line is not wiped: %q", w.String())
	}
}

func TestSilent(t *testing.T) {
	var none *Line
	none.Show(1)
	none.Done()
	l := New(nil, "soak")
	l.Show(1)
	l.Done()
}
