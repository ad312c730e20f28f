package page

import (
	"fmt"
	"math"
	"strings"

	"roundmill/metrics"
	"roundmill/plots"
)

func (p *player) scoring() section {
	s := section{ID: "scoring", Heading: "Scoring"}
	total, found := first(p.Scoring, func(r metrics.Scoring) bool { return r.GroupKind == metrics.ByTotal })
	if found {
		s.say(scoringWords(total))
	}
	s.say(roundWords(p.season))
	s.say(partsWords(p.partRows()))
	if bounce, found := first(p.BounceBack, func(metrics.BounceBack) bool { return true }); found {
		s.say(bounceWords(bounce))
	}
	s.Figures = p.charts("strokes-gained", "scoring")
	s.add(p.partTable(), p.scoreTable())
	return s
}

// scoringWords says how often holes end well and badly.
func scoringWords(total metrics.Scoring) string {
	under := share{estimate{total.UnderParShare, total.UnderParLo, total.UnderParHi}, total.N}
	double := share{estimate{total.DoubleOrWorseShare, total.DoubleOrWorseLo, total.DoubleOrWorseHi}, total.N}
	return fmt.Sprintf("Of %s, %s were played under par and %s in a double bogey or worse.",
		plots.Counted(int(total.N), "complete hole", "complete holes"), under.words(), double.words())
}

// roundWords is what a round of 18 complete holes has in fairways, greens and
// putts.
func roundWords(season metrics.Season) string {
	if season.Holes == 0 {
		return ""
	}
	var said []string
	for _, of := range []struct {
		share float64
		what  string
	}{{season.FairwayShare, "of fairways hit"}, {season.GreenShare, "of greens in regulation"}, {season.UpAndDownShare, "up and down"}} {
		if !math.IsNaN(of.share) {
			said = append(said, plots.Percent(of.share)+" "+of.what)
		}
	}
	if !math.IsNaN(season.Putts) {
		said = append(said, plots.Number(season.Putts, 1)+" putts a round")
	}
	if !math.IsNaN(season.Penalties) {
		said = append(said, plots.Strokes(plots.Number(season.Penalties, 1))+" in penalties a round")
	}
	if len(said) == 0 {
		return ""
	}
	return plots.Sentence(listed(said)) + "."
}

// part is a class of strokes with its estimate of strokes gained a round.
type part struct {
	class, name   string
	loses, gains  string
	gained        estimate
	rounds, shots int64
}

// partRows are the four parts of the game, in the order they are played.
func (p *player) partRows() (parts []part) {
	for _, known := range []part{
		{class: "tee shot", name: "Tee shots", loses: "lose", gains: "gain"},
		{class: "approach", name: "Approach play", loses: "loses", gains: "gains"},
		{class: "short game", name: "The short game", loses: "loses", gains: "gains"},
		{class: "putt", name: "Putting", loses: "loses", gains: "gains"},
	} {
		for _, row := range p.StrokesGained {
			if row.GroupKind == metrics.ByClass && row.Group == known.class {
				known.gained, known.rounds, known.shots = estimate{row.PerRound, row.PerRoundLo, row.PerRoundHi}, row.Rounds, row.N
				parts = append(parts, known)
			}
		}
	}
	return parts
}

// partOf is what one class of strokes amounts to, as a sentence.
func (p *player) partOf(class string) string {
	for _, part := range p.partRows() {
		if part.class == class {
			return part.gained.against(part.name, part.loses, part.gains, "a round")
		}
	}
	return ""
}

// partsWords names the parts of the game that are shown to lose and to gain,
// and those of which neither is shown.
func partsWords(parts []part) string {
	if len(parts) == 0 {
		return ""
	}
	var lose, gain, open []string
	for _, part := range parts {
		called := strings.ToLower(part.name[:1]) + part.name[1:]
		switch {
		case !part.gained.hasInterval():
			return ""
		case part.gained.below():
			lose = append(lose, called)
		case part.gained.above():
			gain = append(gain, called)
		default:
			open = append(open, called)
		}
	}
	var said []string
	if len(lose) > 0 {
		said = append(said, "strokes are lost in "+listed(lose))
	}
	if len(gain) > 0 {
		said = append(said, "strokes are gained in "+listed(gain))
	}
	if len(open) > 0 && len(open) < len(parts) {
		said = append(said, "in "+listed(open)+" neither a loss nor a gain is shown")
	}
	if len(said) == 0 {
		return "Against the benchmark no part of the game is shown to gain or to lose."
	}
	return "Against the benchmark " + strings.Join(said, "; ") + "."
}

// listed is a list in words: a, b and c.
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// bounceWords compares holes after a hole over par with the others. Without a
// hole under par there is nothing to compare.
func bounceWords(row metrics.BounceBack) string {
	if row.N < fewestForShare || row.OtherwiseN < fewestForShare || row.Share+row.OtherwiseShare == 0 {
		return ""
	}
	said := fmt.Sprintf("Straight after a hole over par %s of holes are under par, otherwise %s", plots.Percent(row.Share), plots.Percent(row.OtherwiseShare))
	switch {
	case math.IsNaN(row.DifferenceLo + row.DifferenceHi):
		return said + "."
	case row.DifferenceLo > 0:
		return said + ": a hole over par is followed by better ones."
	case row.DifferenceHi < 0:
		return said + ": a hole over par is followed by worse ones."
	}
	return said + ": no sign that one bad hole brings, or mends, the next."
}

func (p *player) partTable() table {
	t := table{ID: "parts", Caption: "Strokes gained a round, by part of the game", Columns: columns("Part", "Strokes", "Rounds", "A round (90 %)")}
	for _, part := range p.partRows() {
		t.Rows = append(t.Rows, []string{part.name, plots.Count(int(part.shots)), plots.Count(int(part.rounds)), part.gained.signedCell()})
	}
	for _, row := range p.StrokesGained {
		if row.GroupKind == metrics.ByTotal {
			t.Rows = append(t.Rows, []string{"All strokes", plots.Count(int(row.N)), plots.Count(int(row.Rounds)), estimate{row.PerRound, row.PerRoundLo, row.PerRoundHi}.signedCell()})
		}
	}
	return t
}

func (p *player) scoreTable() table {
	t := table{ID: "scores", Caption: "Scores by par, nine and length of hole, as if all 18 holes were such", Columns: columns("Holes", "Played", "To par (90 %)", "Under par", "Double or worse", "Strokes gained (90 %)"),
		Note: fmt.Sprintf("A group of under ten holes is left out. The bands of length are those of the tables: %s %s each.", plots.Number(p.units.FromYards(50), 0), p.units.Long())}
	for _, row := range p.Scoring {
		if row.N < fewestForShare {
			continue
		}
		t.Rows = append(t.Rows, []string{
			scoringGroup(row, p.units), plots.Count(int(row.N)), estimate{row.ToPar, row.ToParLo, row.ToParHi}.signedCell(),
			share{estimate{row.UnderParShare, row.UnderParLo, row.UnderParHi}, row.N}.cell(),
			share{estimate{row.DoubleOrWorseShare, row.DoubleOrWorseLo, row.DoubleOrWorseHi}, row.N}.cell(),
			estimate{row.StrokesGained, row.StrokesGainedLo, row.StrokesGainedHi}.signedCell(),
		})
	}
	return t
}

// scoringGroup names a group of holes.
func scoringGroup(row metrics.Scoring, units plots.Units) string {
	switch row.GroupKind {
	case metrics.ByTotal:
		return "All holes"
	case metrics.ByPar:
		return "Par " + row.Group
	case metrics.ByNine:
		return plots.Sentence(row.Group) + " nine"
	}
	par, _, _ := strings.Cut(row.Group, ",")
	return "Par " + par + " of " + spanWords(row.LengthFromYd, row.LengthToYd, units)
}
