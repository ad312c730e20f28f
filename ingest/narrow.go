package ingest

import "time"

// Narrow says which rounds to read; its zero value admits all. Players are
// matched by name, any of several; the dates are included.
type Narrow struct {
	Players []string
	Course  string
	From    time.Time
	To      time.Time
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
