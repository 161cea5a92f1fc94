package study

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// abreast does work(0) … work(n−1), several at a time. It returns the error of
// the lowest number, so that what is told does not depend on who was first.
func abreast(n int, work func(i int) error) error {
	errs := make([]error, n)
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				errs[i] = work(i)
			}
		})
	}
	all.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
