package ordered

import (
	"context"
	"errors"
	"strings"
	"testing"
)

func isBug(t *testing.T, err error, says, stack string) {
	t.Helper()
	var bug *Bug
	if !errors.As(err, &bug) || bug.Value != says || !strings.Contains(string(bug.Stack), stack) {
		t.Errorf("%v, expected a panic %q in %s", err, says, stack)
	}
}

func breakDown(says string) { panic(says) }

func TestAPanicSideBySideIsAnErrorThatKnowsItsPlace(t *testing.T) {
	group := NewGroup(2)
	for range 5 {
		group.Go(func() error { return nil })
	}
	group.Go(func() error { breakDown("side by side"); return nil })
	isBug(t, group.Wait(), "side by side", "ordered.breakDown")
}

func TestABugThatIsRaisedAgainStaysAsItWas(t *testing.T) {
	err := Guard(func() error {
		panic(Guard(func() error { breakDown("first"); return nil }))
	})
	isBug(t, err, "first", "ordered.breakDown")
	if plain := errors.New("plain"); Guard(func() error { return plain }) != plain {
		t.Error("an error is not passed on")
	}
}

// Whoever panics, the sequence ends with the bug and no goroutine hangs.
func TestAPanicOfProduceOrDoEndsTheSequence(t *testing.T) {
	for workers := 1; workers <= 4; workers++ {
		for at := range 20 {
			var last error
			for _, err := range Map(context.Background(), workers, workers, counting(20), func(_, value int) (int, error) {
				if value == at {
					breakDown("worker")
				}
				return value, nil
			}) {
				last = err
			}
			isBug(t, last, "worker", "ordered.breakDown")
			for _, err := range Map(context.Background(), workers, workers, func(_ context.Context, emit func(int) error) error {
				for i := range at {
					if err := emit(i); err != nil {
						return err
					}
				}
				breakDown("producer")
				return nil
			}, double) {
				last = err
			}
			isBug(t, last, "producer", "ordered.breakDown")
		}
	}
}

// A panic of whoever takes the results lets the workers end and goes on.
func TestAPanicOfTheTakerGoesOn(t *testing.T) {
	isBug(t, Guard(func() error {
		for range Map(context.Background(), 3, 3, counting(50), double) {
			breakDown("taker")
		}
		return nil
	}), "taker", "ordered.breakDown")
}
