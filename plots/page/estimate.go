package page

import (
	"fmt"
	"math"
	"strings"

	"roundmill/metrics"
	"roundmill/plots"
)

// estimate is a figure with its 90 % interval, whose ends are NaN where there
// is none.
type estimate struct{ value, lo, hi float64 }

func (e estimate) hasInterval() bool { return !math.IsNaN(e.lo + e.hi) }
func (e estimate) below() bool       { return e.hasInterval() && e.hi < 0 }
func (e estimate) above() bool       { return e.hasInterval() && e.lo > 0 }

// turned is the estimate with its sign turned.
func (e estimate) turned() estimate { return estimate{-e.value, -e.hi, -e.lo} }

// times is the estimate in another unit.
func (e estimate) times(factor float64) estimate {
	return estimate{e.value * factor, e.lo * factor, e.hi * factor}
}

// size is the estimate without its sign.
func (e estimate) size() estimate {
	if e.value < 0 {
		return e.turned()
	}
	return e
}

// decimals are those that the interval supports.
func (e estimate) decimals() int { return plots.IntervalDecimals(e.value, e.lo, e.hi) }

func (e estimate) number() string { return plots.Number(e.value, e.decimals()) }
func (e estimate) signed() string { return plots.Signed(e.value, e.decimals()) }

// interval is the interval in numbers: 1.4 to 2.0.
func (e estimate) interval() string {
	return span(plots.Number(e.lo, e.decimals()), plots.Number(e.hi, e.decimals()))
}

func (e estimate) signedInterval() string {
	return span(plots.Signed(e.lo, e.decimals()), plots.Signed(e.hi, e.decimals()))
}

// span is a range on one line.
func span(from, to string) string { return from + plots.NoBreak + "to" + plots.NoBreak + to }

// cell is the estimate as it stands in a table: 23 (22 to 25).
func (e estimate) cell() string { return e.inCell(e.number(), e.interval()) }

// lengthCell is cell for a distance from the hole, yardCell for one on the way
// there.
func (e estimate) lengthCell(units plots.Units) string {
	return e.inCell(e.length(units), e.interval())
}
func (e estimate) yardCell() string { return e.inCell(e.whole(), e.interval()) }

// length is a distance from the hole alone, to the tenth at most: no tape is
// finer.
func (e estimate) length(units plots.Units) string {
	if !e.hasInterval() && units == plots.Metres {
		return plots.Number(e.value, 1)
	}
	return e.whole()
}

// whole is a distance alone, whole where no interval says more.
func (e estimate) whole() string {
	if !e.hasInterval() {
		return plots.Number(e.value, 0)
	}
	return plots.Number(e.value, min(1, e.decimals()))
}

// signedCell is cell with plus signs: −1.7 (−2.0 to −1.4).
func (e estimate) signedCell() string { return e.inCell(e.signed(), e.signedInterval()) }

func (e estimate) inCell(value, interval string) string {
	if math.IsNaN(e.value) || !e.hasInterval() {
		return value
	}
	return value + intervalBegins + "(" + interval + ")"
}

// intervalBegins is the space before an interval in a table cell, where a
// narrow column breaks.
const intervalBegins = "\n"

// overlaps says whether two intervals have a value in common; unknown ones
// always may.
func (e estimate) overlaps(other estimate) bool {
	return !e.hasInterval() || !other.hasInterval() || e.lo <= other.hi && other.lo <= e.hi
}

// against says what strokes gained amount to, after the subject with its verb
// in the plural: "lose 1.7 strokes a round (90 % interval 1.4 to 2.0)". Where
// the interval spans zero neither a loss nor a gain is claimed.
func (e estimate) against(subject, loses, gains, per string) string {
	switch {
	case math.IsNaN(e.value):
		return fmt.Sprintf("%s: not known.", subject)
	case !e.hasInterval():
		return fmt.Sprintf("%s: %s %s as played; too few rounds to say more.", subject, plots.Strokes(e.signed()), per)
	case e.below():
		size := e.turned()
		return fmt.Sprintf("%s %s %s %s (90 %% interval %s).", subject, loses, plots.Strokes(size.number()), per, size.interval())
	case e.above():
		return fmt.Sprintf("%s %s %s %s (90 %% interval %s).", subject, gains, plots.Strokes(e.number()), per, e.interval())
	}
	return fmt.Sprintf("%s: neither a loss nor a gain is shown, %s %s with a 90 %% interval of %s.",
		subject, plots.Strokes(e.signed()), per, e.signedInterval())
}

// share is a share of n with its 90 % interval.
type share struct {
	estimate
	n int64
}

// fewestForShare is the count under which a share is counted out, and no
// figure is worth a row of its own.
const fewestForShare = 10

// words are 57 % (54 to 60 %), or 3 of 7 where the count is small.
func (s share) words() string { return strings.ReplaceAll(s.cell(), intervalBegins, " ") }

// cell is the same in a table.
func (s share) cell() string {
	switch {
	case s.n == 0 || math.IsNaN(s.value):
		return "–"
	case s.n < fewestForShare:
		return fmt.Sprintf("%.0f of %d", s.value*float64(s.n), s.n)
	}
	return s.inCell(plots.Percent(s.value), s.span())
}

// span is the interval in per cent: 54 to 60 %.
func (s share) span() string {
	return span(plots.Number(100*s.lo, 0), plots.Percent(s.hi))
}

// byChance says how many of several groups, each with its own 90 % interval,
// may stand out though nothing is behind it.
func byChance(compared int, groups string) string {
	if compared < 2 {
		return ""
	}
	expected := max(1, int(math.Round((1-metrics.Level)*float64(compared))))
	return fmt.Sprintf("; of %d %s %s may stand out by chance", compared, groups, strings.ToLower(plots.InWords(expected)))
}
