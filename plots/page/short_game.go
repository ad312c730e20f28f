package page

import (
	"fmt"
	"math"
	"strings"

	"roundmill/metrics"
	"roundmill/plots"
)

func (p *player) shortGame() section {
	s := section{ID: "short-game", Heading: "Short game", Figures: p.charts("short-game")}
	s.say(p.partOf("short game"))
	all, found := first(p.ShortGame, func(r metrics.ShortGame) bool { return r.Lie == metrics.AnyLie && math.IsNaN(r.FromYd) })
	if found {
		s.say(upAndDownWords(all))
	} else {
		s.say("No complete hole has a short-game stroke.")
	}
	s.say(lieWords(pick(p.ShortGame, func(r metrics.ShortGame) bool { return r.Lie != metrics.AnyLie && math.IsNaN(r.FromYd) })))
	if sided, found := first(p.ShortSided, func(r metrics.ShortSided) bool { return math.IsNaN(r.FromYd) }); found {
		s.say(shortSidedWords(sided))
	}
	s.add(p.shortGameTable())
	return s
}

// upAndDownWords compares up and downs with what the benchmark implies.
func upAndDownWords(row metrics.ShortGame) string {
	if row.N < fewestForShare {
		return fmt.Sprintf("Up and down %d of %s.", row.UpAndDowns, plots.Counted(int(row.N), "time", "times"))
	}
	made := share{estimate{row.UpAndDown, row.UpAndDownLo, row.UpAndDownHi}, row.N}
	said := fmt.Sprintf("Up and down %s of %s", made.words(), plots.Counted(int(row.N), "time", "times"))
	if math.IsNaN(row.BaselineShare) {
		return said + "."
	}
	return said + fmt.Sprintf("; %s.", besideBenchmark(made.estimate, row.BaselineShare, "implies about "))
}

// besideBenchmark says whether a share is above or below that of the benchmark,
// or neither as far as its interval tells.
func besideBenchmark(made estimate, benchmark float64, verb string) string {
	said := "from the same places the benchmark " + verb + plots.Percent(benchmark)
	switch {
	case !made.hasInterval():
		return said
	case made.lo > benchmark:
		return said + ", which is less"
	case made.hi < benchmark:
		return said + ", which is more"
	}
	return said + ", which is no different as far as the figures tell"
}

// lieWords names the lies from which it takes more or fewer strokes to hole out
// than the benchmark expects, of those that the chart's title looks at.
func lieWords(rows []metrics.ShortGame) string {
	var more, fewer []string
	compared := 0
	for _, row := range rows {
		if row.N < plots.EnoughForQuestion || math.IsNaN(row.StrokesLo+row.StrokesHi+row.BaselineStrokes) {
			continue
		}
		compared++
		switch {
		case row.StrokesLo > row.BaselineStrokes:
			more = append(more, "the "+name(row.Lie))
		case row.StrokesHi < row.BaselineStrokes:
			fewer = append(fewer, "the "+name(row.Lie))
		}
	}
	var said []string
	if len(more) > 0 {
		said = append(said, "more strokes than the benchmark expects from "+listed(more))
	}
	if len(fewer) > 0 {
		said = append(said, "fewer from "+listed(fewer))
		if len(more) == 0 {
			said[0] = "fewer strokes than the benchmark expects from " + listed(fewer)
		}
	}
	switch {
	case compared == 0:
		return ""
	case len(said) == 0:
		return fmt.Sprintf("From no lie with %d holes or more are the strokes to hole out shown to differ from what the benchmark expects.", plots.EnoughForQuestion)
	}
	return "It takes " + strings.Join(said, ", ") + byChance(compared, "lies") + "."
}

// shortSidedWords says what being short-sided costs.
func shortSidedWords(row metrics.ShortSided) string {
	cost := estimate{row.Cost, row.CostLo, row.CostHi}
	switch {
	case !cost.hasInterval():
		return ""
	case cost.above():
		return fmt.Sprintf("Short-sided, it takes %s more (%s) to hole out than after other misses from like distance.", plots.Strokes(cost.number()), cost.interval())
	case cost.below():
		less := cost.turned()
		return fmt.Sprintf("Short-sided, it takes %s fewer (%s) to hole out than after other misses from like distance.", plots.Strokes(less.number()), less.interval())
	}
	return fmt.Sprintf("That being short-sided costs anything is not shown: %s at like distance, with a 90 %% interval of %s.", plots.Strokes(cost.signed()), cost.signedInterval())
}

func (p *player) shortGameTable() table {
	unit := p.units.ShortSymbol()
	t := table{ID: "short-game", Caption: "Up and down, by distance and by lie", Columns: columns("From", "Times", "Up and down (90 %)", "Benchmark implies", "Strokes to hole out (90 %)", "Benchmark expects", "Median "+unit+" left"),
		Note: "First short-game stroke of complete holes. A lie with under ten of them is left out."}
	for _, row := range p.ShortGame {
		var called string
		switch {
		case row.Lie == metrics.AnyLie && math.IsNaN(row.FromYd):
			called = "Everywhere"
		case row.Lie == metrics.AnyLie:
			called = spanWords(row.FromYd, row.ToYd, p.units)
		case math.IsNaN(row.FromYd) && row.N >= fewestForShare:
			called = name(row.Lie)
		default:
			continue
		}
		leave := feetEstimate(row.LeaveMedianFt, row.LeaveMedianLoFt, row.LeaveMedianHiFt, p.units)
		t.Rows = append(t.Rows, []string{
			called, plots.Count(int(row.N)), share{estimate{row.UpAndDown, row.UpAndDownLo, row.UpAndDownHi}, row.N}.cell(), plots.Percent(row.BaselineShare),
			estimate{row.Strokes, row.StrokesLo, row.StrokesHi}.cell(), plots.Number(row.BaselineStrokes, 2), leave.length(p.units),
		})
	}
	return t
}
