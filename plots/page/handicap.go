package page

import (
	"fmt"
	"math"
	"slices"

	"roundmill/metrics"
	"roundmill/plots"
)

func (p *player) handicap() section {
	s := section{ID: "handicap", Heading: "Handicap, an estimate", Figures: p.charts("handicap")}
	s.say(handicapWords(p.Handicap))
	if !slices.ContainsFunc(p.Handicap, func(r metrics.Handicap) bool { return r.Scores > 0 }) {
		return s
	}
	s.add(p.handicapTable())
	s.Cautions = append(s.Cautions, "This is an estimate by the Rules of Handicapping (R&A and USGA, 2024) from the rounds in the log. Only an authorised association issues a Handicap Index: it has every score, playing conditions and peer review.")
	return s
}

// handicapWords is the estimated index after the last round that changed it.
func handicapWords(rows []metrics.Handicap) string {
	var last metrics.Handicap
	scores := int64(0)
	for _, row := range rows {
		scores = max(scores, row.Scores)
		if !math.IsNaN(row.IndexAfter) && row.Scores > 0 {
			last = row
		}
	}
	switch {
	case scores == 0:
		return "No complete round of 18 holes has a Course Rating and a Slope Rating in the log, so no index can be estimated."
	case last.Scores == 0:
		return fmt.Sprintf("%s with a rating %s too few: an index takes three.", plots.Counted(int(scores), "round", "rounds"), plots.IsOrAre(int(scores)))
	}
	lowest := "lowest"
	if last.Counted > 1 {
		lowest = fmt.Sprintf("lowest %d", last.Counted)
	}
	return fmt.Sprintf("Estimated index after the round of %s: %s, from the %s of the last %s.",
		dayWords(last.Date), plots.HandicapIndex(last.IndexAfter), lowest, plots.Counted(int(min(last.Scores, 20)), "score", "scores"))
}

func (p *player) handicapTable() table {
	const most = 20
	t := table{ID: "handicap", Caption: "The last rounds and the estimated index after each",
		Columns: []column{{"Day", true}, {"Course", true}, {"Gross", false}, {"Adjusted", false}, {"Differential", false}, {"Index after", false}, {"Remark", true}}}
	rows := p.Handicap[max(0, len(p.Handicap)-most):]
	for _, row := range rows {
		t.Rows = append(t.Rows, []string{dayCell(row.Date), name(row.Course), plots.Number(row.Gross, 0), plots.Number(row.AdjustedGross, 0), plots.Number(row.Differential, 1), plots.HandicapIndex(row.IndexAfter), row.Note})
	}
	if more := len(p.Handicap) - len(rows); more > 0 {
		t.Note = fmt.Sprintf("%s before these in the table handicap.", plots.Counted(more, "round", "rounds"))
	}
	return t
}
