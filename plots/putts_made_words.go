package plots

import (
	"fmt"
	"math"
	"strings"

	"roundmill/metrics"
)

// puttsMadeWords makes the sentences of the chart of putts made.
type puttsMadeWords struct {
	season  Season
	columns puttColumns
	rows    []metrics.Putting
	all     metrics.Putting // of all lengths
	parts   []puttPart      // start line, pace, both; none where they are not told apart
	fitted  bool
}

func puttsMissing(n int) string {
	if n == 0 {
		return "No putt has a known end."
	}
	return fmt.Sprintf("%s with a known end %s too few to draw; it takes %d.",
		Sentence(Counted(n, "putt", "putts")), IsOrAre(n), fewestPutts)
}

// title says whether start line or pace costs more where their intervals are
// apart, then what one of them or both cost, then how the share made compares;
// where none of that is clear it asks.
func (w puttsMadeWords) title() string {
	if w.season.fewRounds() {
		return "How many putts are made? " + tooFewRounds(w.season.Rounds)
	}
	if title := w.partsTitle(); title != "" {
		return title
	}
	made, benchmark := w.all.Made, w.all.BaselineMade
	switch {
	case w.all.MadeHi < benchmark:
		return fmt.Sprintf("Fewer putts are made than the benchmark makes: %s against %s", Percent(made), Percent(benchmark))
	case w.all.MadeLo > benchmark:
		return fmt.Sprintf("More putts are made than the benchmark makes: %s against %s", Percent(made), Percent(benchmark))
	case w.fitted && w.parts[0].hasInterval():
		return "Does start line or pace cost more putts? These putts do not tell"
	}
	if !w.fitted {
		return "How many putts are made? Too few putts to tell start line from pace"
	}
	return "How many putts are made?"
}

func (w puttsMadeWords) partsTitle() string {
	if !w.fitted {
		return ""
	}
	line, pace, both := w.parts[0], w.parts[1], w.parts[2]
	more, less := line, pace
	if pace.cost > line.cost {
		more, less = pace, line
	}
	apart := more.hasInterval() && less.hasInterval() && more.lo > less.hi
	switch {
	case more.costs() && apart:
		return fmt.Sprintf("%s costs more than %s: %s a round against the benchmark", more.name, strings.ToLower(less.name), more.amount())
	case more.costs() && !less.costs():
		return fmt.Sprintf("%s costs %s a round; %s may cost as much", more.name, more.amount(), strings.ToLower(less.name))
	case less.costs() && !more.costs():
		return fmt.Sprintf("%s costs %s a round; %s may cost as much or more", less.name, less.amount(), strings.ToLower(more.name))
	case both.costs():
		return fmt.Sprintf("Start line and pace together cost %s a round; which of them is open", both.amount())
	case less.saves() && apart:
		return fmt.Sprintf("%s saves %s a round against the benchmark", less.name, less.amount())
	case both.saves():
		return fmt.Sprintf("Start line and pace together save %s a round against the benchmark", both.amount())
	}
	return ""
}

func (w puttsMadeWords) counted() []string {
	marks, benchmark := marksShown{}, false
	for _, row := range w.rows {
		marks.add(row.N, row.MadeLo, row.MadeHi)
		benchmark = benchmark || !math.IsNaN(row.BaselineMade)
	}
	reading := "Dot: share made."
	if marks.withLine {
		reading += " " + marks.lineReading()
	}
	if benchmark {
		reading += " Dash: the benchmark from there."
	}
	if w.fitted {
		reading += " Curve: start line and pace."
	}
	if marks.hollow {
		reading += hollowUnder("putts")
	}
	return []string{w.season.counted(Counted(int(w.all.N), "putt", "putts")), reading}
}

func (w puttsMadeWords) source() []string {
	text := "All columns are drawn equally wide, whatever length they span."
	if w.fitted {
		text += " Start line (degrees) and pace (per cent of the length) are the standard deviations of a model in which a putt drops when it starts inside the hole's angle and would not run far past (Broadie 2018, Gelman 2019)."
	} else {
		text += " Start line and pace are left out: too few putts to tell them apart."
	}
	return append([]string{text}, w.season.source("")...)
}

// alt says what the picture shows, length by length.
func (w puttsMadeWords) alt() string {
	var rows []string
	for _, row := range w.rows {
		said := fmt.Sprintf("%s %s", w.columns.lengthPrinted(puttLength{row.FromFt, row.ToFt}), madeOf(row.NMade, row.N))
		if !math.IsNaN(row.MadeLo+row.MadeHi) && row.N >= fewestSolid {
			said += fmt.Sprintf(" (%s to %s)", wholePercent(row.MadeLo), wholePercent(row.MadeHi))
		}
		if !math.IsNaN(row.BaselineMade) {
			said += fmt.Sprintf(", benchmark %s", Percent(row.BaselineMade))
		}
		rows = append(rows, said)
	}
	text := fmt.Sprintf("Putts made by length, with 90 %% interval: %s.", strings.Join(rows, "; "))
	for _, part := range w.parts {
		if part.own != "" {
			text += fmt.Sprintf(" %s %s, benchmark %s.", part.name, part.own, part.benchmark)
		}
		if part.hasInterval() {
			text += fmt.Sprintf(" %s: %s putts a round (%s to %s) against the benchmark.", part.name,
				Signed(part.cost, part.decimals()), Signed(part.lo, part.decimals()), Signed(part.hi, part.decimals()))
		}
	}
	return text
}
