package metrics

import (
	"cmp"
	"time"

	"roundmill/transform"
)

// loggedStroke is one stroke of the log, kept to be pointed to.
type loggedStroke struct {
	key             roundKey
	hole, par, shot int32
	penalty         int32
	class           transform.Class
	toHoleYd        float64
	gained          float64
	lie, club       string
	penaltyKind     string
	intent, fault   string
}

func strokeAt(s *transform.Shots, row int, key roundKey) loggedStroke {
	return loggedStroke{
		key: key, hole: s.Hole[row], par: s.Par[row], shot: s.Shot[row], penalty: s.Penalty[row],
		class: s.Class[row], toHoleYd: s.ToHoleYd[row], gained: s.StrokesGained[row],
		lie: s.Lie.At(row), club: s.Club.At(row), penaltyKind: s.PenaltyKind.At(row),
		intent: s.Intent.At(row), fault: s.Fault.At(row),
	}
}

// byLoss puts the stroke that lost most first, and earlier ones before later.
func (a *loggedStroke) byLoss(b *loggedStroke) int {
	return cmp.Or(cmp.Compare(a.gained, b.gained), a.key.compare(b.key), cmp.Compare(a.hole, b.hole), cmp.Compare(a.shot, b.shot))
}

// day is the date of a round.
func (k roundKey) day() time.Time { return dayOf(k.date) }

// dayOf is the day that is so many days after 1970-01-01.
func dayOf(days int32) time.Time { return time.Unix(int64(days)*24*60*60, 0).UTC() }
