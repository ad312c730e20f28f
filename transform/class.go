package transform

import "roundmill/ingest"

// A Class says which part of the game a stroke belongs to.
type Class uint8

const (
	TeeShot   Class = iota // from the tee of a par 4, 5 or 6
	Approach               // the rest, tee strokes on a par 3 among them
	ShortGame              // not a putt, within Options.ShortGameYd of the hole
	Putt                   // from the green
	ClassCount
	NoClass = ClassCount // no stroke: the hole of a scorecard
)

var classNames = [ClassCount]string{"tee shot", "approach", "short game", "putt"}

func (c Class) String() string { return classNames[c] }

// classify gives every stroke its class and its yardage band, and says whether
// it played at the green.
func (s *Shots) classify(o Options) {
	s.Class, s.AtGreen, s.Band = make([]Class, s.N), make([]bool, s.N), make([]int32, s.N)
	laysUp := make([]bool, len(s.Intent.List))
	for code, word := range s.Intent.List {
		laysUp[code] = word == "lay up" || word == "get out"
	}
	for row := range s.N {
		s.Class[row] = s.classOf(row, o.ShortGameYd)
		code := s.Intent.Codes[row]
		s.AtGreen[row] = s.Class[row] == Approach && s.ToHoleYd[row] <= o.ReachYd &&
			s.Category[row] != ingest.Recovery && !(code >= 0 && laysUp[code])
		s.Band[row] = bandOf(s.ToHoleYd[row], o.BandsYd)
	}
}

func (s *Shots) classOf(row int, shortGameYd float64) Class {
	switch {
	case s.Shot[row] == 0:
		return NoClass
	case s.Category[row] == ingest.Green:
		return Putt
	case s.Category[row] == ingest.Tee && s.Par[row] >= 4:
		return TeeShot
	case s.ToHoleYd[row] <= shortGameYd:
		return ShortGame
	}
	return Approach
}

// bandOf is the index of the band that holds a distance, lower edge included
// and upper not; -1 outside all.
func bandOf(yards float64, edges []float64) int32 {
	if len(edges) == 0 || !(yards < edges[len(edges)-1]) {
		return -1
	}
	band := int32(-1)
	for _, edge := range edges {
		if yards < edge {
			break
		}
		band++
	}
	return band
}
