package plots

import (
	"fmt"
	"math"

	"roundmill/metrics"
)

// partOfGame names the strokes of a skill cell in the units seen, as in the
// middle of a sentence: tee shots on holes of 500–550 yd.
func partOfGame(cell metrics.Priority, units Units) string {
	yards := func(yd float64) string { return Number(units.FromYards(yd), 0) }
	feet := func(yd float64) string { return Number(3*yd, 0) }
	if units == Metres {
		feet = func(yd float64) string { return Number(units.FromYards(yd), 1) }
	}
	switch {
	case cell.Class == "tee shot":
		return "tee shots on holes of " + span(cell, yards, units.LongSymbol())
	case cell.Class == "putt":
		return "putts of " + span(cell, feet, units.ShortSymbol())
	case cell.LieGroup == metrics.OutOfReach:
		return "approaches laid up or out of reach"
	case cell.LieGroup == metrics.FromRecovery && cell.Class == "approach":
		return "approaches from recovery"
	case cell.Class == "approach":
		return fmt.Sprintf("approaches from %s, %s", cell.LieGroup, span(cell, yards, units.LongSymbol()))
	}
	return fmt.Sprintf("%s from %s, %s", cell.Class, cell.LieGroup, span(cell, yards, units.LongSymbol()))
}

func span(cell metrics.Priority, print func(yd float64) string, unit string) string {
	if math.IsNaN(cell.ToYd) {
		return fmt.Sprintf("%s%s%s and more", print(cell.FromYd), NoBreak, unit)
	}
	return fmt.Sprintf("%s–%s%s%s", print(cell.FromYd), print(cell.ToYd), NoBreak, unit)
}
