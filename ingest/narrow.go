package ingest

import (
	"slices"
	"time"
)

// Narrow says which rounds to read; its zero value admits all. Players are
// matched by name, any of several; the dates are included.
type Narrow struct {
	Players []string
	Course  string
	From    time.Time
	To      time.Time
}

// Unmet are the players asked for who are not among those met.
func (n *Narrow) Unmet(met []string) (unmet []string) {
	for _, name := range n.Players {
		if !slices.ContainsFunc(met, func(other string) bool { return plainForm(other) == plainForm(name) }) {
			unmet = append(unmet, name)
		}
	}
	return unmet
}

func (n *Narrow) admits(r *rows, row int) bool {
	day := dateOf(r.number(date, row))
	switch {
	case n.Course != "" && plainForm(r.text(course, row)) != plainForm(n.Course),
		!n.From.IsZero() && day.Before(n.From),
		!n.To.IsZero() && day.After(n.To):
		return false
	}
	for _, name := range n.Players {
		if plainForm(r.text(player, row)) == plainForm(name) {
			return true
		}
	}
	return len(n.Players) == 0
}
