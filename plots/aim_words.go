package plots

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"roundmill/metrics"
)

// aimWords makes the sentences of the aim chart from its figures.
type aimWords struct {
	season Season
	bands  []aimBand // nearest first
}

// savedIn100 is how many shots strokes saved are shown for, which one shot has
// too little of.
const savedIn100 = 100

func savedDecimals(row metrics.Aim) int {
	return max(1, IntervalDecimals(savedIn100*row.Saved, savedIn100*row.SavedLo, savedIn100*row.SavedHi))
}

func savedPrinted(row metrics.Aim) string { return Signed(savedIn100*row.Saved, savedDecimals(row)) }

func savedInterval(row metrics.Aim) string {
	decimals := savedDecimals(row)
	return fmt.Sprintf("(%s to %s)", Signed(savedIn100*row.SavedLo, decimals), Signed(savedIn100*row.SavedHi, decimals))
}

func (w aimWords) band(row metrics.Aim) string {
	return w.season.Units.Band(row.BandFromYd, row.BandToYd) + NoBreak + w.season.Units.LongSymbol()
}

// cut is how far the hole is from the side.
func (w aimWords) cut() string {
	return CutPrinted(shownCutYd, w.season.Units) + NoBreak + w.season.Units.LongSymbol()
}

// CutPrinted is how far a hole is cut from the side of the green.
func CutPrinted(yd float64, units Units) string {
	decimals := 0
	if units == Metres {
		decimals = 1
	}
	return Number(units.FromYards(yd), decimals)
}

// SavedIn100 prints strokes saved in 100 shots, with their interval.
func SavedIn100(row metrics.Aim) (saved, interval string) {
	return savedPrinted(row), savedInterval(row)
}

// by is how far the target lies from the flag.
func (w aimWords) by(row metrics.Aim) string {
	units := w.season.Units
	offset := math.Abs(units.FromYards(row.OffsetYd))
	return Number(offset, Decimals(offset, units.FromYards(row.OffsetHiYd-row.OffsetLoYd))) + NoBreak + units.LongSymbol()
}

// way is the side of the flag that the target lies on.
func way(row metrics.Aim) string {
	if toTheRight(row, row.OffsetYd) < 0 {
		return "left"
	}
	return "right"
}

// AimAdvice are the targets that save strokes for certain when the hole is cut as
// the chart shows it. Where they are no more than chance would show of so many,
// byChance is true and there are none.
func AimAdvice(rows []metrics.Aim) (sure []metrics.Aim, byChance bool) {
	targets := 0
	for _, row := range rows {
		if row.CutYd != shownCutYd || math.IsNaN(row.Saved+row.SavedLo+row.SavedHi) {
			continue
		}
		targets++
		if saves(row) {
			sure = append(sure, row)
		}
	}
	if expected := math.Round(float64(targets) * (1 - metrics.Level) / 2); len(sure) > 0 && float64(len(sure)) <= expected {
		return nil, true
	}
	return sure, false
}

// title gives the advice only where the model is sure that it saves strokes, in
// more places than chance would have, where it saves the most.
func (w aimWords) title() string {
	var rows []metrics.Aim
	for _, band := range w.bands {
		rows = append(rows, band.rows()...)
	}
	sure, byChance := AimAdvice(rows)
	question := fmt.Sprintf("Where to aim when the hole is %s from a side?", w.cut())
	switch {
	case byChance:
		return question + " No more targets stand clear of the flag than by chance"
	case len(sure) == 0:
		return question + " The model does not tell a better target than the flag"
	}
	shown := slices.MaxFunc(sure, func(a, b metrics.Aim) int {
		return cmp.Or(cmp.Compare(a.Saved, b.Saved), cmp.Compare(a.N, b.N))
	})
	inwards := !slices.ContainsFunc(sure, func(row metrics.Aim) bool { return row.OffsetYd <= 0 })
	oneSide := !slices.ContainsFunc(sure, func(row metrics.Aim) bool { return row.Side != shown.Side })
	switch {
	case len(sure) > 1 && inwards && oneSide:
		return fmt.Sprintf("With the hole %s from the %s, aim towards the middle: by %s from %s", w.cut(), shown.Side, w.by(shown), w.band(shown))
	case len(sure) > 1 && inwards:
		return fmt.Sprintf("With the hole %s from a side, aim towards the middle: by %s from %s with the hole on the %s",
			w.cut(), w.by(shown), w.band(shown), shown.Side)
	}
	return fmt.Sprintf("From %s with the hole %s from the %s, aim %s %s of it", w.band(shown), w.cut(), shown.Side, w.by(shown), way(shown))
}

func (w aimWords) counted() []string {
	shots := 0
	for _, band := range w.bands {
		shots += int(band.any().N)
	}
	return append(w.season.countedAgainst(Counted(shots, "approach", "approaches")),
		fmt.Sprintf("Mark: best target, hole %s from the side of the green. Bar and brackets: 90"+NoBreak+"%% intervals. Filled: the saving is clear of zero.", w.cut()))
}

func (w aimWords) source() []string {
	return append(paragraphs(AimAssumptions(w.season.Units)), w.season.source("Saved: against the flag as target. Other cuts are in the tables.")...)
}

// AimAssumptions is what the advice on aim takes for granted, in the units of
// the reader.
func AimAssumptions(units Units) string {
	size := func(yd float64) string { return Number(units.FromYards(yd), 0) + " " + units.LongSymbol() }
	return strings.NewReplacer("30 yd", size(30), "25 yd", size(25)).Replace(metrics.AimAssumptions)
}

// paragraphs breaks a long text between sentences into parts that each fit the
// lines of one paragraph.
func paragraphs(text string) (parts []string) {
	part := ""
	for _, sentence := range strings.SplitAfter(text, ". ") {
		if part != "" && len(wrapped(part+sentence, quiet.face(), lineWidth, mostLines+1)) > mostLines {
			parts = append(parts, strings.TrimSpace(part))
			part = ""
		}
		part += sentence
	}
	return append(parts, strings.TrimSpace(part))
}

// alt says what the picture shows, band by band.
func (w aimWords) alt() string {
	var bands []string
	for _, band := range w.bands {
		for _, row := range band.rows() {
			bands = append(bands, fmt.Sprintf("from %s, hole on the %s: %s %s of the flag, saves %s %s in 100 shots",
				w.band(row), row.Side, w.by(row), way(row), savedPrinted(row), savedInterval(row)))
		}
	}
	return fmt.Sprintf("A model of the best target for a hole %s from the side of the green: %s.",
		w.cut(), strings.Join(bands, "; "))
}
