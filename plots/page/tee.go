package page

import (
	"fmt"
	"math"

	"roundmill/metrics"
	"roundmill/plots"
)

func (p *player) offTheTee() section {
	s := section{ID: "tee", Heading: "Off the tee", Figures: p.charts("tee-clubs")}
	s.say(p.partOf("tee shot"))
	if len(p.TeeClubs) > 0 {
		most := p.TeeClubs[0]
		for _, row := range p.TeeClubs[1:] {
			if row.N > most.N {
				most = row
			}
		}
		s.say(teeClubWords(most, p.units))
	}
	for _, row := range p.TeeClubDifferences {
		s.say(teeDifferenceWords(row))
	}
	s.add(p.teeTable(), p.teeDifferenceTable())
	if len(p.TeeClubs) == 0 {
		s.say("The log names no club off the tee of a par 4 or 5.")
	}
	return s
}

// teeClubWords tells of the club played most off the tee.
func teeClubWords(row metrics.TeeClub, units plots.Units) string {
	if row.N < fewestForShare {
		return ""
	}
	said := fmt.Sprintf("The %s, %s", name(row.Club), plots.Counted(int(row.N), "tee shot", "tee shots"))
	if median := yards(row.MedianYd, row.MedianLoYd, row.MedianHiYd, units); !math.IsNaN(median.value) {
		said += fmt.Sprintf(", goes %s %s at the median", median.whole(), units.Long())
	}
	if !math.IsNaN(row.FairwayShare) {
		said += fmt.Sprintf(" and hits %s of fairways", plots.Percent(row.FairwayShare))
	}
	return said + "." + sideWords(row, units)
}

// sideWords says on which side the misses are, where the shots tell.
func sideWords(row metrics.TeeClub, units plots.Units) string {
	if row.NSide < fewestForShare || math.IsNaN(row.LeftShare+row.RightShare) {
		return ""
	}
	left, right := estimate{row.LeftShare, row.LeftLo, row.LeftHi}, estimate{row.RightShare, row.RightLo, row.RightHi}
	if !left.hasInterval() || !right.hasInterval() {
		return ""
	}
	far := plots.Number(units.FromYards(15), 0) + " " + units.Long()
	switch {
	case left.overlaps(right):
		return fmt.Sprintf(" Misses of more than %s go left (%s) and right (%s); the shots do not tell which is the more frequent.", far, plots.Percent(left.value), plots.Percent(right.value))
	case left.value > right.value:
		return fmt.Sprintf(" Misses of more than %s go left (%s) more often than right (%s).", far, plots.Percent(left.value), plots.Percent(right.value))
	}
	return fmt.Sprintf(" Misses of more than %s go right (%s) more often than left (%s).", far, plots.Percent(right.value), plots.Percent(left.value))
}

// teeDifferenceWords compares two clubs on holes of like length.
func teeDifferenceWords(row metrics.TeeClubDifference) string {
	score := estimate{row.Score, row.ScoreLo, row.ScoreHi}
	if row.NLonger < fewestForShare || row.NShorter < fewestForShare || !score.hasInterval() {
		return ""
	}
	better, than := row.ShorterClub, row.LongerClub
	if score.above() {
		better, than = than, better
	}
	if score.above() || score.below() {
		size := score.size()
		return fmt.Sprintf("On holes of like length the score is %s (%s) lower with the %s than with the %s; part of that may be the holes on which each was chosen.",
			plots.Strokes(size.number()), size.interval(), name(better), name(than))
	}
	return fmt.Sprintf("Between %s and %s on holes of like length no difference in score is shown: %s a hole with the %s, with a 90 %% interval of %s.",
		name(row.LongerClub), name(row.ShorterClub), plots.Strokes(score.signed()), name(row.ShorterClub), score.signedInterval())
}

// yards is a distance with its interval in the units seen.
func yards(value, lo, hi float64, units plots.Units) estimate {
	return estimate{value, lo, hi}.times(units.FromYards(1))
}

// feetEstimate is a distance from the hole with its interval in the units seen.
func feetEstimate(value, lo, hi float64, units plots.Units) estimate {
	return estimate{value, lo, hi}.times(units.FromFeet(1))
}

func (p *player) teeTable() table {
	unit := p.units.Long()
	t := table{ID: "tee-clubs", Caption: "Clubs off the tee of par 4s and 5s",
		Columns: columns("Club", "Shots", "Median "+unit+" (90 %)", "Fairways", "Penalties", "Far left", "Far right", "Strokes gained a shot (90 %)"),
		Note:    fmt.Sprintf("Far: more than %s %s from the target.", plots.Number(p.units.FromYards(15), 0), unit)}
	for _, row := range p.TeeClubs {
		t.Rows = append(t.Rows, []string{
			name(row.Club), plots.Count(int(row.N)), yards(row.MedianYd, row.MedianLoYd, row.MedianHiYd, p.units).yardCell(),
			share{estimate{row.FairwayShare, row.FairwayLo, row.FairwayHi}, row.NFairway}.cell(),
			share{estimate{row.PenaltyShare, row.PenaltyLo, row.PenaltyHi}, row.N}.cell(),
			share{estimate{row.LeftShare, row.LeftLo, row.LeftHi}, row.NSide}.cell(),
			share{estimate{row.RightShare, row.RightLo, row.RightHi}, row.NSide}.cell(),
			estimate{row.StrokesGainedPer, row.StrokesGainedLo, row.StrokesGainedHi}.signedCell(),
		})
	}
	return t
}

func (p *player) teeDifferenceTable() table {
	t := table{ID: "tee-differences", Caption: "One club against another on holes of like length",
		Columns: columns("Shorter against longer club", "Holes", "Score a hole (90 %)", "Strokes gained by the tee shot (90 %)"),
		Note:    "Shorter club less longer club. A lower score, or more strokes gained, speaks for the shorter one."}
	for _, row := range p.TeeClubDifferences {
		t.Rows = append(t.Rows, []string{
			name(row.ShorterClub) + " against " + name(row.LongerClub), plots.Count(int(row.NShorter)) + plots.NoBreak + "and" + plots.NoBreak + plots.Count(int(row.NLonger)),
			estimate{row.Score, row.ScoreLo, row.ScoreHi}.signedCell(), estimate{row.StrokesGained, row.StrokesGainedLo, row.StrokesGainedHi}.signedCell(),
		})
	}
	return t
}
