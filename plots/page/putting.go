package page

import (
	"fmt"
	"math"
	"strings"

	"roundmill/metrics"
	"roundmill/plots"
)

func (p *player) putting() section {
	s := section{ID: "putting", Heading: "Putting", Figures: p.charts("putts-made", "first-putt", "putt-slope")}
	s.say(p.partOf("putt"))
	s.say(madeWords(pick(p.Putting, func(r metrics.Putting) bool { return !math.IsNaN(r.FromFt) }), p.units))
	if all, found := first(p.Putting, func(r metrics.Putting) bool { return math.IsNaN(r.FromFt) }); found {
		s.say(threePuttWords(all))
	} else {
		s.say("No putt has a known end.")
	}
	for _, row := range p.PuttingGroundDifferences {
		if row.Kind == metrics.BySlope && row.Ground == "downhill" && row.Other == "uphill" {
			s.say(slopeWords(row))
		}
	}
	for _, row := range p.PuttingModel {
		s.say(lineOrPaceWords(row))
	}
	s.add(p.puttTable(), p.groundTable())
	return s
}

// madeWords names the distances at which fewer or more putts are made than the
// benchmark makes.
func madeWords(rows []metrics.Putting, units plots.Units) string {
	var fewer, more []string
	compared := 0
	for _, row := range rows {
		if row.N < fewestForShare || math.IsNaN(row.MadeLo+row.MadeHi+row.BaselineMade) {
			continue
		}
		compared++
		switch {
		case row.MadeHi < row.BaselineMade:
			fewer = append(fewer, feetWords(row.FromFt, row.ToFt, units))
		case row.MadeLo > row.BaselineMade:
			more = append(more, feetWords(row.FromFt, row.ToFt, units))
		}
	}
	if compared == 0 {
		return ""
	}
	var said []string
	if len(fewer) > 0 {
		said = append(said, "fewer putts are made from "+listed(fewer))
	}
	switch {
	case len(more) > 0 && len(fewer) > 0:
		said = append(said, "more from "+listed(more))
	case len(more) > 0:
		said = append(said, "more putts are made from "+listed(more))
	}
	if len(said) == 0 {
		return "From no distance with ten putts or more are more or fewer shown to be made than the benchmark makes."
	}
	return "Against the benchmark " + strings.Join(said, ", and ") + byChance(compared, "distances") + "."
}

func threePuttWords(all metrics.Putting) string {
	if all.NFirst == 0 {
		return ""
	}
	three := share{estimate{all.ThreePutt, all.ThreePuttLo, all.ThreePuttHi}, all.NFirst}
	if all.NFirst < fewestForShare {
		return fmt.Sprintf("Three putts or more on %d of %s.", all.NThreePutt, plots.Counted(int(all.NFirst), "green", "greens"))
	}
	return fmt.Sprintf("Three putts or more on %s of %s.", three.words(), plots.Counted(int(all.NFirst), "green", "greens"))
}

// slopeWords compares downhill with uphill putts at like distance.
func slopeWords(row metrics.PuttingGroundDifference) string {
	difference := estimate{row.Made, row.MadeLo, row.MadeHi}
	points := difference.times(100)
	switch {
	case !difference.hasInterval():
		return ""
	case difference.below():
		return fmt.Sprintf("At like distance %s fewer of a hundred putts go in downhill than uphill (%s).", plots.Number(-points.value, 0), pointsSpan(points.turned()))
	case difference.above():
		return fmt.Sprintf("At like distance %s more of a hundred putts go in downhill than uphill (%s).", plots.Number(points.value, 0), pointsSpan(points))
	}
	return "At like distance downhill and uphill putts are not shown to differ."
}

func pointsSpan(points estimate) string {
	return span(plots.Number(points.lo, 0), plots.Number(points.hi, 0))
}

// lineOrPaceWords says whether the season tells start line from pace.
func lineOrPaceWords(row metrics.PuttingModel) string {
	line, pace := estimate{row.LineGain, row.LineGainLo, row.LineGainHi}, estimate{row.PaceGain, row.PaceGainLo, row.PaceGainHi}
	both := estimate{row.BothGain, row.BothGainLo, row.BothGainHi}
	saves := func(what string, gain estimate) string {
		return fmt.Sprintf("By a model of start line and pace, the benchmark's %s would save %s (%s) a round", what, plots.Strokes(plots.Number(gain.value, gain.decimals())), gain.interval())
	}
	switch {
	case !line.hasInterval() || !pace.hasInterval():
		return ""
	case line.above() && pace.above():
		return saves("start line", line) + fmt.Sprintf(" and its pace %s (%s).", pace.number(), pace.interval())
	case line.above():
		return saves("start line", line) + "; that pace costs anything is not shown."
	case pace.above():
		return saves("pace", pace) + "; that start line costs anything is not shown."
	case both.above():
		return saves("start line and pace together", both) + ", but the putts do not tell which of the two."
	}
	return "Whether start line or pace costs strokes the putts of this season do not tell."
}

func (p *player) puttTable() table {
	unit := p.units.ShortSymbol()
	t := table{ID: "putts", Caption: "Putts by distance", Columns: columns("From", "Putts", "Made (90 %)", "Benchmark", "First putts", "Median "+unit+" left", "Three putts or more", "Strokes gained a putt (90 %)")}
	for _, row := range p.Putting {
		called := feetWords(row.FromFt, row.ToFt, p.units)
		if math.IsNaN(row.FromFt) {
			called = "All putts"
		}
		gained := "–"
		if row.N >= fewestForShare {
			gained = estimate{row.StrokesGainedPer, row.StrokesGainedLo, row.StrokesGainedHi}.signedCell()
		}
		t.Rows = append(t.Rows, []string{
			called, plots.Count(int(row.N)), share{estimate{row.Made, row.MadeLo, row.MadeHi}, row.N}.cell(), plots.Percent(row.BaselineMade), plots.Count(int(row.NFirst)),
			feetEstimate(row.LeaveMedianFt, row.LeaveMedianLoFt, row.LeaveMedianHiFt, p.units).length(p.units),
			share{estimate{row.ThreePutt, math.NaN(), math.NaN()}, row.NFirst}.cell(),
			gained,
		})
	}
	return t
}

func (p *player) groundTable() table {
	t := table{ID: "ground", Caption: "Putts by slope and break, against each other at like distance", Columns: columns("Putts", "Number", "Made, difference in points (90 %)", "Strokes gained a putt, difference (90 %)"),
		Note: "A point is one putt of a hundred."}
	for _, row := range p.PuttingGroundDifferences {
		made := estimate{row.Made, row.MadeLo, row.MadeHi}.times(100)
		if !made.hasInterval() {
			continue
		}
		t.Rows = append(t.Rows, []string{
			plots.Sentence(row.Ground) + " against " + row.Other, plots.Count(int(row.N)) + plots.NoBreak + "and" + plots.NoBreak + plots.Count(int(row.NOther)),
			made.inCell(plots.Signed(made.value, 0), span(plots.Signed(made.lo, 0), plots.Signed(made.hi, 0))), estimate{row.StrokesGained, row.StrokesGainedLo, row.StrokesGainedHi}.signedCell(),
		})
	}
	return t
}
