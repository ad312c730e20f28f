package ordered

import (
	"context"
	"errors"
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func counting(n int) func(context.Context, func(int) error) error {
	return func(_ context.Context, emit func(int) error) error {
		for i := range n {
			if err := emit(i); err != nil {
				return err
			}
		}
		return nil
	}
}

func double(_, value int) (int, error) { return 2 * value, nil }

func TestResultsComeInTheOrderOfTheWorkOnAnyNumberOfWorkers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		workers, ahead, n := rapid.IntRange(1, 9).Draw(t, "workers"), rapid.IntRange(1, 20).Draw(t, "ahead"), rapid.IntRange(0, 60).Draw(t, "values")
		lazy := rapid.IntRange(1, 7).Draw(t, "every so many are slow")
		next := 0
		for result, err := range Map(context.Background(), workers, ahead, counting(n), func(_, value int) (int, error) {
			if value%lazy == 0 {
				time.Sleep(50 * time.Microsecond)
			}
			return 2 * value, nil
		}) {
			if err != nil || result != 2*next {
				t.Fatalf("result %d is %d, %v", next, result, err)
			}
			next++
		}
		if next != n {
			t.Fatalf("%d results of %d", next, n)
		}
	})
}

func TestEachWorkerHasItsNumber(t *testing.T) {
	var inUse [3]atomic.Bool
	for _, err := range Map(context.Background(), 3, 3, counting(200), func(worker, value int) (int, error) {
		if inUse[worker].Swap(true) {
			return 0, errors.New("two at once have the same number")
		}
		runtime.Gosched()
		inUse[worker].Store(false)
		return value, nil
	}) {
		if err != nil {
			t.Fatal(err)
		}
	}
}

// Memory is bounded by how many results wait, so what is under way must be.
func TestOnlySoManyResultsAreUnderWay(t *testing.T) {
	const workers, ahead = 3, 7
	var emitted, taken, most atomic.Int64
	produce := func(_ context.Context, emit func(int) error) error {
		for i := range 100 {
			if err := emit(i); err != nil {
				return err
			}
			most.Store(max(most.Load(), emitted.Add(1)-taken.Load()))
		}
		return nil
	}
	for _, err := range Map(context.Background(), workers, ahead, produce, double) {
		if err != nil {
			t.Fatal(err)
		}
		time.Sleep(100 * time.Microsecond)
		taken.Add(1)
	}
	if got := most.Load(); got > ahead+2 || got < ahead {
		t.Errorf("%d values were under way, %d ahead", got, ahead)
	}
}

func TestAnErrorOfTheWorkEndsTheSequenceInItsPlace(t *testing.T) {
	broken := errors.New("broken")
	results := 0
	for _, err := range Map(context.Background(), 4, 4, counting(1000), func(_, value int) (int, error) {
		if value == 20 {
			return 0, broken
		}
		return value, nil
	}) {
		if err != nil {
			if err != broken || results != 20 {
				t.Errorf("%v after %d results", err, results)
			}
			return
		}
		results++
	}
	t.Error("the sequence ended without the error")
}

func TestAnErrorOfTheProducerIsTheLastThing(t *testing.T) {
	broken := errors.New("broken")
	var last error
	for _, err := range Map(context.Background(), 2, 2, func(_ context.Context, emit func(int) error) error {
		return errors.Join(emit(1), emit(2), broken)
	}, double) {
		last = err
	}
	if !errors.Is(last, broken) {
		t.Errorf("the sequence ended with %v", last)
	}
}

func TestLeavingEarlyStopsTheProducer(t *testing.T) {
	stopped := make(chan error, 1)
	endless := func(_ context.Context, emit func(int) error) error {
		for {
			if err := emit(1); err != nil {
				stopped <- err
				return err
			}
		}
	}
	for range Map(context.Background(), 2, 2, endless, double) {
		break
	}
	if err := <-stopped; !errors.Is(err, context.Canceled) {
		t.Errorf("the producer was stopped by %v", err)
	}
}

// A context that ends after everything was emitted must not make results
// disappear in silence.
func TestNoResultIsLostWithoutAnError(t *testing.T) {
	for range 200 {
		ctx, stop := context.WithCancel(context.Background())
		results, failed := 0, false
		for _, err := range Map(ctx, 2, 2, counting(4), func(_, value int) (int, error) {
			if value == 3 {
				stop()
			}
			return value, nil
		}) {
			if err != nil {
				failed = true
			} else {
				results++
			}
		}
		stop()
		if results < 4 && !failed {
			t.Fatalf("%d results of 4, and no error", results)
		}
	}
}
