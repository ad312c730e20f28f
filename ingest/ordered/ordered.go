// Package ordered runs work on several goroutines and takes the results in the
// order in which the work was given out, so that output does not depend on how
// many there are.
package ordered

import (
	"context"
	"iter"

	"golang.org/x/sync/errgroup"
)

// Map gives each value that produce emits to one of the workers and yields what
// do makes of it, in the order of emission. do is told the number of its
// worker, from 0, so that it can keep something of its own. Up to ahead results
// wait behind the one whose turn it is: with as many as workers, or more, these
// wait less for one of them that is slow. Both are at least 1. The sequence ends
// with the error of produce or do, or of the context; a panic in one of them is
// an error, a *Bug.
func Map[T, R any](ctx context.Context, workers, ahead int,
	produce func(ctx context.Context, emit func(T) error) error,
	do func(worker int, value T) (R, error),
) iter.Seq2[R, error] {
	type outcome struct {
		result R
		err    error
	}
	type job struct {
		value T
		done  chan outcome
	}
	return func(yield func(R, error) bool) {
		ctx, stop := context.WithCancel(ctx)
		unguarded, ctx := errgroup.WithContext(ctx)
		group := Group{unguarded}
		defer group.Wait()
		defer stop()
		jobs := make(chan job)
		queue := make(chan chan outcome, ahead)
		group.Go(func() error {
			defer close(jobs)
			defer close(queue)
			return produce(ctx, func(value T) error {
				j := job{value, make(chan outcome, 1)}
				select {
				case queue <- j.done:
				case <-ctx.Done():
					return ctx.Err()
				}
				select {
				case jobs <- j:
					return nil
				case <-ctx.Done():
					return ctx.Err()
				}
			})
		})
		for worker := range workers {
			group.Go(func() error {
				for j := range jobs {
					result, err := do(worker, j.value)
					j.done <- outcome{result, err}
				}
				return nil
			})
		}
		var none R
		lost := false
		for done := range queue {
			select {
			case o := <-done:
				if o.err != nil {
					yield(none, o.err)
					return
				}
				if !yield(o.result, nil) {
					return
				}
			case <-ctx.Done():
				lost = true
			}
		}
		// A produce that had nothing more to emit may not have noticed that the
		// context ended before its results were taken.
		err := group.Wait()
		if err == nil && lost {
			err = ctx.Err()
		}
		if err != nil {
			yield(none, err)
		}
	}
}
