package plots

import (
	"fmt"
	"math"

	"roundmill/ingest"
)

// Units is what people read distances in; figures come in as yards and feet
// whatever it is. The zero value reads as Yards.
type Units string

const (
	Yards  Units = "yd" // yards before the shot, feet after it
	Metres Units = "m"  // metres for both
)

const metresPerFoot = ingest.MetresPerYard / 3

// FromYards is a distance in yards, in yards or metres.
func (u Units) FromYards(yd float64) float64 {
	if u == Metres {
		return yd * ingest.MetresPerYard
	}
	return yd
}

// FromFeet is a distance in feet, in feet or metres.
func (u Units) FromFeet(ft float64) float64 {
	if u == Metres {
		return ft * metresPerFoot
	}
	return ft
}

// Long is the word for distances to the hole before a shot: yards or metres.
func (u Units) Long() string {
	if u == Metres {
		return "metres"
	}
	return "yards"
}

// Short is the word for distances from the hole after a shot: feet or metres.
func (u Units) Short() string {
	if u == Metres {
		return "metres"
	}
	return "feet"
}

// LongSymbol is the symbol that follows a distance to the hole: yd or m.
func (u Units) LongSymbol() string {
	if u == Metres {
		return "m"
	}
	return "yd"
}

// ShortSymbol is the symbol that follows a distance from the hole: ft or m.
func (u Units) ShortSymbol() string {
	if u == Metres {
		return "m"
	}
	return "ft"
}

// Band names a yardage band by its edges in yards, in whole yards or metres
// and without a unit: 100–125, or 250+ where the band has no upper edge.
func (u Units) Band(fromYd, toYd float64) string {
	from := math.Round(u.FromYards(fromYd))
	if math.IsInf(toYd, 1) || math.IsNaN(toYd) {
		return fmt.Sprintf("%.0f+", from)
	}
	return fmt.Sprintf("%.0f–%.0f", from, math.Round(u.FromYards(toYd)))
}
