package page

import (
	"fmt"
	"math"
	"strings"

	"roundmill/metrics"
	"roundmill/plots"
)

func (p *player) decisions() section {
	s := section{ID: "decisions", Heading: "Decisions", Figures: p.charts("aim")}
	s.say(aimWords(p.Aim, p.units))
	s.say(faultWords(pick(p.Verdicts, func(r metrics.Verdict) bool { return r.GroupKind == metrics.ByFault })))
	s.say(doubleWords(p.DoubleCauses))
	s.add(p.aimTable(), p.verdictTable(), p.doubleTable(), p.costlyTable())
	if len(p.Aim) > 0 {
		s.Cautions = append(s.Cautions, "About aim: "+plots.AimAssumptions(p.units))
	}
	return s
}

// aimGains are the targets that are shown to save strokes.
func aimGains(rows []metrics.Aim) []metrics.Aim {
	return pick(rows, func(r metrics.Aim) bool { return estimate{r.Saved, r.SavedLo, r.SavedHi}.above() && r.OffsetYd > 0 })
}

// aimWords names the distance and side where aiming off the flag saves most.
func aimWords(rows []metrics.Aim, units plots.Units) string {
	if len(rows) == 0 {
		return "No distance has twenty logged misses in five rounds, which aim needs."
	}
	sure, _ := plots.AimAdvice(rows)
	gains := aimGains(sure)
	if len(gains) == 0 {
		return "From no distance is aiming away from the flag shown to save strokes, more than chance would show."
	}
	most := gains[0]
	for _, row := range gains[1:] {
		if row.Saved > most.Saved {
			most = row
		}
	}
	off := yards(most.OffsetYd, most.OffsetLoYd, most.OffsetHiYd, units)
	saved, ofSaved := plots.SavedIn100(most)
	return fmt.Sprintf("Aim matters most from %s, with the hole cut %s %s from the %s edge: a target %s %s (%s) towards the middle of the green saves %s %s in 100 shots, by a model of the player's own misses.",
		spanWords(most.BandFromYd, most.BandToYd, units), plots.CutPrinted(most.CutYd, units), units.Long(), most.Side,
		off.number(), units.Long(), off.interval(), plots.Strokes(strings.TrimPrefix(saved, "+")), strings.ReplaceAll(ofSaved, "+", ""))
}

// faultWords splits what was lost on strokes with a fault noted.
func faultWords(rows []metrics.Verdict) string {
	var said []string
	for _, row := range rows {
		lost := estimate{row.PerRound, row.PerRoundLo, row.PerRoundHi}.turned()
		if row.Group == metrics.NotNoted || row.N == 0 {
			continue
		}
		words := plots.Strokes(lost.number()) + " a round by " + name(row.Group)
		if lost.hasInterval() {
			words += " (" + lost.interval() + ")"
		}
		said = append(said, words)
	}
	if len(said) == 0 {
		return ""
	}
	return "Of the strokes that the player put down to a fault: " + listed(said) + ". Faults are written beside bad strokes, so they split the loss and do not measure a skill."
}

// doubleWords says what starts a double bogey or worse.
func doubleWords(rows []metrics.DoubleCause) string {
	classes := pick(rows, func(r metrics.DoubleCause) bool { return r.GroupKind == metrics.ByClass && r.N > 0 })
	if len(classes) == 0 {
		return ""
	}
	most := classes[0]
	for _, row := range classes[1:] {
		if row.Started > most.Started {
			most = row
		}
	}
	if most.N < fewestForShare {
		return plots.Counted(int(most.N), "double bogey or worse is", "double bogeys or worse are") + " too few to say where they start."
	}
	started := estimate{most.StartedShare, most.StartedLo, most.StartedHi}
	clear := true
	for _, row := range classes {
		clear = clear && (row.Group == most.Group || !started.overlaps(estimate{row.StartedShare, row.StartedLo, row.StartedHi}))
	}
	called := map[string]string{"tee shot": "a tee shot", "approach": "an approach", "short game": "a short-game stroke", "putt": "a putt"}[most.Group]
	said := fmt.Sprintf("Of %s, %d began with %s", plots.Counted(int(most.N), "double bogey or worse", "double bogeys or worse"), most.Started, called)
	if !clear {
		said += ", which is too few to set it apart from the other parts"
	}
	if penalty, found := first(rows, func(r metrics.DoubleCause) bool { return r.GroupKind == metrics.ByPenalty }); found && penalty.Doubles > 0 {
		said += "; " + plots.Counted(int(penalty.Doubles), "had a penalty stroke in it", "had a penalty stroke in them")
	}
	return said + "."
}

func (p *player) aimTable() table {
	unit := p.units.Long()
	t := table{ID: "aim", Caption: "Where to aim when the hole is cut near a side", Columns: columns("From", "Hole from the edge", "Shots", "Aim off the flag, "+unit+" (90 %)", "Strokes saved in 100 shots (90 %)"),
		Note: "Only where a saving is shown, towards the middle of the green. The rest is in the table aim."}
	for _, row := range aimGains(p.Aim) {
		saved, ofSaved := plots.SavedIn100(row)
		t.Rows = append(t.Rows, []string{
			spanWords(row.BandFromYd, row.BandToYd, p.units), plots.CutPrinted(row.CutYd, p.units) + " " + unit + ", " + row.Side, plots.Count(int(row.N)),
			yards(row.OffsetYd, row.OffsetLoYd, row.OffsetHiYd, p.units).cell(), saved + " " + ofSaved,
		})
	}
	return t
}

func (p *player) verdictTable() table {
	t := table{ID: "verdicts", Caption: "Strokes gained by fault and by intent, as the player wrote them", Columns: columns("Stroke", "Number", "Rounds", "A round (90 %)", "A stroke (90 %)"),
		Note: "A stroke was played safe, or attacked, for a reason: the rows do not compare like with like."}
	for _, row := range p.Verdicts {
		kind := "Fault"
		if row.GroupKind == metrics.ByIntent {
			kind = "Intent"
		}
		t.Rows = append(t.Rows, []string{
			kind + ": " + name(row.Group), plots.Count(int(row.N)), plots.Count(int(row.Rounds)),
			estimate{row.PerRound, row.PerRoundLo, row.PerRoundHi}.signedCell(), estimate{row.PerShot, row.PerShotLo, row.PerShotHi}.signedCell(),
		})
	}
	return t
}

func (p *player) doubleTable() table {
	t := table{ID: "doubles", Caption: "What makes a double bogey or worse", Columns: columns("Stroke", "Doubles with one", "Doubles begun by one (90 %)", "Lost a round (90 %)"),
		Note: "The strokes without which the hole would have been a bogey or better. A double can have several; the first of them began it."}
	called := map[string]string{"tee shot": "Tee shot", "approach": "Approach", "short game": "Short game", "putt": "Putt", "penalty": "With a penalty, of any kind"}
	for _, row := range p.DoubleCauses {
		if row.GroupKind == metrics.ByTotal {
			continue
		}
		t.Rows = append(t.Rows, []string{
			called[row.Group], fmt.Sprintf("%d of %d", row.Doubles, row.N),
			share{estimate{row.StartedShare, row.StartedLo, row.StartedHi}, row.N}.cell(), estimate{row.LostPerRound, row.LostPerRoundLo, row.LostPerRoundHi}.cell(),
		})
	}
	return t
}

func (p *player) costlyTable() table {
	const most = 10
	t := table{ID: "costly", Caption: "The costliest strokes", Note: "File and line of each, and ten more, are in the table costly_shots.",
		Columns: []column{{"Day", true}, {"Where", true}, {"Stroke", true}, {"What became of it", true}, {"Strokes gained", false}}}
	for _, row := range p.CostlyShots {
		if row.Rank > most || row.StrokesGained >= 0 {
			continue
		}
		where := strings.TrimPrefix(fmt.Sprintf("%s, hole %d, par %d", name(row.Course), row.Hole, row.Par), ", ")
		t.Rows = append(t.Rows, []string{dayCell(row.Date), where, p.costlyStroke(row), p.costlyEnd(row), plots.Signed(row.StrokesGained, 1)})
	}
	return t
}

// costlyStroke says which stroke it was: 2: 3 wood, fairway, 244 yards.
func (p *player) costlyStroke(row metrics.CostlyShot) string {
	parts := []string{}
	for _, word := range []string{name(row.Club), name(row.Lie)} {
		if word != "" {
			parts = append(parts, word)
		}
	}
	return fmt.Sprintf("%d: %s", row.Shot, strings.Join(append(parts, p.distance(row.ToHoleYd, row.Class == "putt")), ", "))
}

// costlyEnd says where it finished, and what the player wrote beside it.
func (p *player) costlyEnd(row metrics.CostlyShot) string {
	var parts []string
	switch {
	case row.Penalty > 0 && row.PenaltyKind != "":
		parts = append(parts, "penalty: "+name(row.PenaltyKind))
	case row.Penalty > 0:
		parts = append(parts, "penalty")
	}
	if row.FinishCategory != "" && !math.IsNaN(row.FinishYd) && row.Penalty == 0 {
		parts = append(parts, fmt.Sprintf("%s left, %s", p.distance(row.FinishYd, row.FinishCategory == "green"), row.FinishCategory))
	}
	if row.Fault != "" {
		parts = append(parts, "fault: "+name(row.Fault))
	}
	if row.Note != "" {
		parts = append(parts, isolated(row.Note, longestNote))
	}
	return strings.Join(parts, "; ")
}

// distance is a distance as logged: yards, or feet on the green, or metres.
func (p *player) distance(yd float64, green bool) string {
	if green {
		return feet(yd*3, p.units) + " " + p.units.ShortSymbol()
	}
	return plots.Number(p.units.FromYards(yd), 0) + " " + p.units.Long()
}
