package plots

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"roundmill/metrics"
)

// approachProximityWords makes the sentences of the approach chart from its figures.
type approachProximityWords struct {
	season Season
	groups []approachGroup             // as drawn
	all    []metrics.ApproachProximity // every row of the player with shots
	to     float64                     // end of the scale, in the units seen
	hills  bool                        // large groups are drawn as densities
}

func approachesMissing(n int) string {
	if n == 0 {
		return "No approach from the fairway or the rough has a known finish."
	}
	return fmt.Sprintf("%s from the fairway and the rough %s too few to draw.",
		Sentence(Counted(n, "approach", "approaches")), IsOrAre(n))
}

// medianPrinted is a median distance with the digits its interval supports.
func medianPrinted(row metrics.ApproachProximity, units Units) string {
	median := units.FromFeet(row.MedianFt)
	return Number(median, Decimals(median, units.FromFeet(row.MedianHiFt-row.MedianLoFt)))
}

// greenPrinted is the share on the green in per cent, without the sign, or
// counted out where the shots are too few for that.
func greenPrinted(row metrics.ApproachProximity) string {
	if math.IsNaN(row.GreenShare) {
		return "–"
	}
	if row.N < fewestSolid {
		return fmt.Sprintf("%.0f/%d", row.GreenShare*float64(row.N), row.N)
	}
	return Number(100*row.GreenShare, 0)
}

// lieContrast is a band in which the medians from fairway and rough are told
// apart: their intervals do not overlap.
type lieContrast struct {
	nearer, farther metrics.ApproachProximity
}

// shots is the smaller count of the two lies.
func (l lieContrast) shots() int64 { return min(l.nearer.N, l.farther.N) }

// EnoughForQuestion is the count in one group under which titles and sentences
// take the shots to be too few to say.
const EnoughForQuestion = 30

// contrasts finds the bands where fairway and rough are told apart, and how
// many bands could be compared at all.
func (w approachProximityWords) contrasts() (clear []lieContrast, compared int) {
	for _, fairway := range w.groups {
		if fairway.LieGroup != metrics.FromFairway || !fairway.hasInterval() {
			continue
		}
		for _, rough := range w.groups {
			if rough.LieGroup != metrics.FromRough || rough.BandFromYd != fairway.BandFromYd || !rough.hasInterval() {
				continue
			}
			compared++
			switch {
			case rough.MedianLoFt > fairway.MedianHiFt:
				clear = append(clear, lieContrast{nearer: fairway.ApproachProximity, farther: rough.ApproachProximity})
			case fairway.MedianLoFt > rough.MedianHiFt:
				clear = append(clear, lieContrast{nearer: rough.ApproachProximity, farther: fairway.ApproachProximity})
			}
		}
	}
	return clear, compared
}

// title says what the intervals of the medians carry: that one lie leaves the
// ball farther away, else how the distance grows with the yardage, else only
// the question.
func (w approachProximityWords) title() string {
	clear, compared := w.contrasts()
	oneWay := !slices.ContainsFunc(clear, func(l lieContrast) bool {
		return l.farther.LieGroup != clear[0].farther.LieGroup
	})
	if len(clear) > 0 && oneWay {
		return w.lieTitle(clear)
	}
	if title := w.yardageTitle(); title != "" {
		return title
	}
	if compared > 0 {
		return "Where do approaches finish? These shots do not yet tell fairway from rough"
	}
	if !slices.ContainsFunc(w.groups, func(g approachGroup) bool { return g.N >= EnoughForQuestion }) {
		return "Where do approaches finish? Too few shots to say"
	}
	return "Where do approaches finish?"
}

func (w approachProximityWords) lieTitle(clear []lieContrast) string {
	shown := slices.MaxFunc(clear, func(a, b lieContrast) int {
		return cmp.Or(cmp.Compare(a.shots(), b.shots()), cmp.Compare(b.nearer.BandFromYd, a.nearer.BandFromYd))
	})
	far, near := medianPrinted(shown.farther, w.season.Units), medianPrinted(shown.nearer, w.season.Units)
	unit := NoBreak + w.season.Units.ShortSymbol()
	if len(clear) == 1 {
		return fmt.Sprintf("From %s the %s leaves the ball %s away, the %s %s",
			w.band(shown.nearer), shown.farther.LieGroup, far+unit, shown.nearer.LieGroup, near+unit)
	}
	return fmt.Sprintf("The %s leaves the ball farther from the hole: %s against %s from %s",
		shown.farther.LieGroup, far+unit, near+unit, w.band(shown.nearer))
}

// yardageTitle compares the nearest and the farthest band of one lie; it is
// empty where their intervals overlap.
func (w approachProximityWords) yardageTitle() string {
	for _, lie := range []string{metrics.FromFairway, metrics.FromRough} {
		var rows []approachGroup
		for _, row := range w.groups {
			if row.LieGroup == lie && row.hasInterval() {
				rows = append(rows, row)
			}
		}
		if len(rows) < 2 {
			continue
		}
		first, last := rows[0].ApproachProximity, rows[len(rows)-1].ApproachProximity
		if last.MedianLoFt > first.MedianHiFt {
			unit := NoBreak + w.season.Units.ShortSymbol()
			return fmt.Sprintf("From the %s the typical approach leaves %s from %s and %s from %s", lie,
				medianPrinted(first, w.season.Units)+unit, w.band(first),
				medianPrinted(last, w.season.Units)+unit, w.band(last))
		}
	}
	return ""
}

func (w approachProximityWords) band(row metrics.ApproachProximity) string {
	return w.season.Units.Band(row.BandFromYd, row.BandToYd) + NoBreak + w.season.Units.Long()
}

func (w approachProximityWords) counted() []string {
	shots := 0
	few, plenty := false, false
	for _, row := range w.groups {
		shots += int(row.N)
		few = few || row.few()
		plenty = plenty || !row.few()
	}
	reading := []string{"Dot: one approach."}
	if w.hills {
		reading = []string{fmt.Sprintf("Dot: one approach; hill: %d or more.", fewestForHill)}
	}
	if plenty {
		reading = append(reading, "Large mark: median; dark line: its 90"+NoBreak+"% interval; pale bar: middle half.")
	} else {
		reading = append(reading, "Large mark: median.")
	}
	if few {
		reading = append(reading, fmt.Sprintf("Hollow: under %d"+NoBreak+"shots.", fewestSolid))
	}
	return []string{w.season.counted(Counted(shots, "approach", "approaches")), strings.Join(reading, " ")}
}

func (w approachProximityWords) source() []string {
	sentences := []string{"Fairway takes in the tee of a par" + NoBreak + "3."}
	if slices.ContainsFunc(w.groups, func(g approachGroup) bool { return beyond(g.finishes, w.to) > 0 }) {
		sentences = append(sentences, "▲: beyond the scale, counted in every figure.")
	}
	penalties := 0
	for _, row := range w.groups {
		penalties += int(row.NPenalty)
	}
	if penalties > 0 {
		sentences = append(sentences, fmt.Sprintf("%s ended in a penalty: in the shots, without a distance.",
			Counted(penalties, "approach", "approaches")))
	}
	if sand := w.sandLeftOut(); sand > 0 {
		sentences = append(sentences, fmt.Sprintf("Not drawn: %s from sand.", Counted(sand, "approach", "approaches")))
	}
	sentences = append(sentences, drawnFrom)
	return []string{strings.Join(sentences, " ")}
}

func (w approachProximityWords) sandLeftOut() int {
	n := 0
	for _, row := range w.all {
		if row.LieGroup == metrics.FromSand {
			n += int(row.N)
		}
	}
	for _, row := range w.groups {
		if row.LieGroup == metrics.FromSand {
			n -= int(row.N)
		}
	}
	return n
}

// alt says what the picture shows, band by band.
func (w approachProximityWords) alt() string {
	var out strings.Builder
	fmt.Fprintf(&out, "Median distance from the hole in %s:", w.season.Units.Short())
	for i, group := range w.groups {
		switch {
		case i == 0:
			fmt.Fprintf(&out, " from %s", w.band(group.ApproachProximity))
		case group.BandFromYd != w.groups[i-1].BandFromYd:
			fmt.Fprintf(&out, "; from %s", w.season.Units.Band(group.BandFromYd, group.BandToYd))
		default:
			out.WriteString(",")
		}
		fmt.Fprintf(&out, " %s %s of %s", group.LieGroup, medianPrinted(group.ApproachProximity, w.season.Units),
			Counted(int(group.N), "shot", "shots"))
	}
	return out.String() + "."
}
