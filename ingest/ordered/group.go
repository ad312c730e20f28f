package ordered

import (
	"context"
	"fmt"
	"runtime/debug"

	"golang.org/x/sync/errgroup"
)

// A Bug is a panic that was caught: a mistake in the program, not in its input.
type Bug struct {
	Value any    // what the panic said
	Stack []byte // of the goroutine that panicked
}

func (b *Bug) Error() string { return fmt.Sprintf("a mistake in the program: %v", b.Value) }

// Guard runs f and returns its error, or a *Bug if it panics. A *Bug that was
// caught in another goroutine and panics here again stays as it was.
func Guard(f func() error) (err error) {
	defer func() {
		switch value := recover().(type) {
		case nil:
		case *Bug:
			err = value
		default:
			err = &Bug{value, debug.Stack()}
		}
	}()
	return f()
}

// Until runs f, which may wait for what never comes, and returns its error, or
// that of ctx if ctx ends first: f is then left to itself.
func Until(ctx context.Context, f func() error) error {
	ended := make(chan error, 1)
	go func() { ended <- Guard(f) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
		return ctx.Err()
	}
}

// A Group runs functions side by side, as an errgroup does; one that panics
// counts as one that returns a *Bug.
type Group struct{ *errgroup.Group }

// NewGroup is a group that runs at most limit functions at a time.
func NewGroup(limit int) *Group {
	group := &Group{&errgroup.Group{}}
	group.SetLimit(limit)
	return group
}

// Go runs f on a goroutine of its own.
func (g *Group) Go(f func() error) {
	g.Group.Go(func() error { return Guard(f) })
}
