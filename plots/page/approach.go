package page

import (
	"fmt"
	"math"

	"roundmill/metrics"
	"roundmill/plots"
)

func (p *player) approach() section {
	s := section{ID: "approach", Heading: "Approach", Figures: p.charts("approach-value", "approach-proximity", "miss-pattern")}
	s.say(p.partOf("approach"))
	s.say(bandWords(pick(p.Priorities, func(r metrics.Priority) bool {
		return r.Class == "approach" && r.Rank > 0 && r.LieGroup != metrics.OutOfReach && r.LieGroup != metrics.FromRecovery
	}), p.units))
	s.say(controlWords(p.DistanceControl, p.units))
	for _, row := range p.WindSlopeEffects {
		s.say(windWords(row))
	}
	s.add(p.proximityTable(), p.controlTable(), p.yardageTable(), p.windTable())
	if len(p.Approach) == 0 {
		s.say("No approach has a known finish.")
	}
	return s
}

// bandWords names the distance and lie that loses most, and whether it stands
// clear of the others.
func bandWords(cells []metrics.Priority, units plots.Units) string {
	if len(cells) == 0 {
		return ""
	}
	at, alone := 0, true
	for i, cell := range cells {
		if cell.StrokesToGain > cells[at].StrokesToGain {
			at = i
		}
	}
	worst := cells[at]
	loss := toGain(worst)
	if !loss.above() {
		return "From no distance and lie is a loss shown."
	}
	for i, cell := range cells {
		alone = alone && (i == at || !toGain(cell).overlaps(loss))
	}
	called := cellWords(worst, units)
	if alone {
		return fmt.Sprintf("%s, lose the most: %s (%s) a round.", called, plots.Strokes(loss.number()), loss.interval())
	}
	return fmt.Sprintf("%s, lose %s (%s) a round, the largest figure of any distance and lie, though not clear of the next.",
		called, plots.Strokes(loss.number()), loss.interval())
}

// controlWords names the steps inside 120 yards that finish short or long on
// average.
func controlWords(rows []metrics.DistanceControl, units plots.Units) string {
	steps := 0
	var short, long []string
	for _, row := range rows {
		miss := yards(row.LongMeanYd, row.LongLoYd, row.LongHiYd, units)
		if row.N < fewestForShare || !miss.hasInterval() {
			continue
		}
		steps++
		said := fmt.Sprintf("%s (%s %s)", spanWords(row.FromYd, row.ToYd, units), plots.Number(miss.size().value, miss.decimals()), units.Long())
		switch {
		case miss.below():
			short = append(short, said)
		case miss.above():
			long = append(long, said)
		}
	}
	inside := fmt.Sprintf("Inside %s %s from clean lies", plots.Number(units.FromYards(120), 0), units.Long())
	var said string
	switch {
	case steps == 0:
		return ""
	case len(short)+len(long) == 0:
		return inside + " shots are neither short nor long on average, as far as they tell."
	case len(long) == 0:
		said = inside + " shots finish short on average from " + listed(short)
	case len(short) == 0:
		said = inside + " shots finish long on average from " + listed(long)
	default:
		said = inside + " shots finish short on average from " + listed(short) + " and long from " + listed(long)
	}
	return said + byChance(steps, "steps") + "."
}

// windWords compares the player's own effect of wind with the rule of thumb.
func windWords(row metrics.WindSlopeEffect) string {
	into := estimate{row.IntoPct, row.IntoLoPct, row.IntoHiPct}
	if !into.hasInterval() {
		return ""
	}
	said := fmt.Sprintf("Into the wind a shot plays %s %% longer per mph (%s)", into.number(), into.interval())
	switch {
	case into.lo > row.IntoRule:
		return said + fmt.Sprintf(", more than the %s %% of the rule of thumb.", plots.Number(row.IntoRule, 0))
	case into.hi < row.IntoRule:
		return said + fmt.Sprintf(", less than the %s %% of the rule of thumb.", plots.Number(row.IntoRule, 0))
	}
	return said + fmt.Sprintf(", which the rule of thumb of %s %% agrees with.", plots.Number(row.IntoRule, 0))
}

func (p *player) proximityTable() table {
	unit := p.units.ShortSymbol()
	t := table{ID: "proximity", Caption: "Where approaches finish, by distance and lie", Columns: columns("From", "Shots", "Median "+unit+" from the hole (90 %)", "On the green",
		"Inside "+feet(30, p.units)+" "+unit, "Strokes gained a shot (90 %)"), Note: "The fairway takes in the tee of a par 3."}
	left, shots := 0, 0
	for _, row := range p.Approach {
		switch {
		case row.LieGroup == metrics.AllLies:
			continue
		case row.N < fewestForShare:
			left++
			shots += int(row.N)
			continue
		}
		t.Rows = append(t.Rows, []string{
			spanWords(row.BandFromYd, row.BandToYd, p.units) + ", " + row.LieGroup, plots.Count(int(row.N)),
			feetEstimate(row.MedianFt, row.MedianLoFt, row.MedianHiFt, p.units).lengthCell(p.units),
			share{estimate{row.GreenShare, math.NaN(), math.NaN()}, row.N}.cell(),
			share{estimate{row.Inside30ftShare, math.NaN(), math.NaN()}, row.N}.cell(),
			estimate{row.StrokesGainedPer, row.StrokesGainedLo, row.StrokesGainedHi}.signedCell(),
		})
	}
	if left > 0 {
		t.Note += fmt.Sprintf(" Left out: %s of under ten shots, %s in all.", plots.Counted(left, "row", "rows"), plots.Counted(shots, "shot", "shots"))
	}
	return t
}

func (p *player) controlTable() table {
	unit := p.units.Long()
	t := table{ID: "distance-control", Caption: "Distance control from clean lies", Columns: columns("From", "Shots", "Past the hole, mean "+unit+" (90 %)", "Spread, "+unit+" (90 %)", "Within 5 % of the distance"),
		Note: "Below zero is short of the hole. Spread: standard deviation along the line of play. A step of under ten shots is left out."}
	for _, row := range p.DistanceControl {
		if row.N < fewestForShare {
			continue
		}
		t.Rows = append(t.Rows, []string{
			spanWords(row.FromYd, row.ToYd, p.units), plots.Count(int(row.N)), yards(row.LongMeanYd, row.LongLoYd, row.LongHiYd, p.units).signedCell(),
			yards(row.LongSdYd, row.LongSdLoYd, row.LongSdHiYd, p.units).yardCell(), share{estimate{row.Within, row.WithinLo, row.WithinHi}, row.N}.cell(),
		})
	}
	return t
}

func (p *player) yardageTable() table {
	unit := p.units.Long()
	t := table{ID: "yardages", Caption: "How far each club goes from a clean lie", Columns: columns("Club", "Shots", "Median "+unit+" (90 %)", "Eight shots of ten", "Gap to the next longer club (90 %)"),
		Note: "From the fairway or the tee of a par 3; brought to still air on the level by the rule of thumb where wind or slope is logged. Part swings count like full ones."}
	for _, row := range p.ClubYardages {
		if row.N < fewestForShare {
			continue
		}
		t.Rows = append(t.Rows, []string{
			name(row.Club), plots.Count(int(row.N)), yards(row.MedianYd, row.MedianLoYd, row.MedianHiYd, p.units).yardCell(),
			plots.Number(p.units.FromYards(row.P10Yd), 0) + "–" + plots.Number(p.units.FromYards(row.P90Yd), 0),
			yards(row.GapYd, row.GapLoYd, row.GapHiYd, p.units).yardCell(),
		})
	}
	return t
}

func (p *player) windTable() table {
	unit := p.units.Long()
	t := table{ID: "wind", Caption: "Approaches in wind and on slopes", Columns: columns("Shot", "Shots", "Past the hole, mean "+unit+" (90 %)", "Spread, "+unit), Note: "Who allows for wind and slope as the ball needs it is neither long nor short in any of them."}
	called := map[string]string{"into": "Into the wind", "down": "Down the wind", "across": "Across the wind", "still": "Still air", "uphill": "Uphill", "downhill": "Downhill", "level": "On the level"}
	for _, row := range p.WindSlope {
		if row.N < fewestForShare {
			continue
		}
		t.Rows = append(t.Rows, []string{called[row.Condition], plots.Count(int(row.N)), yards(row.LongMeanYd, row.LongLoYd, row.LongHiYd, p.units).signedCell(), plots.Number(p.units.FromYards(row.LongSdYd), 0)})
	}
	return t
}
