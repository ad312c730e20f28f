package ingest

import (
	"fmt"
	"strings"
)

// MetresPerYard is exact: the international yard and pound agreement of 1959.
const MetresPerYard = 0.9144

const (
	feetPerYard   = 3
	metresPerMile = 1609.344
)

// A Unit is what the numbers of a column are written in. Every column is
// brought to the base unit of its kind (yards, miles per hour) at the door.
type Unit uint8

// The zero Unit means that neither the header nor the user named one.
const (
	NoUnit Unit = iota
	Yards
	Feet
	Metres
	MilesPerHour
	MetresPerSecond
	KilometresPerHour
	Degrees
)

type unitDefinition struct {
	symbol  string
	kind    kind
	perBase float64 // how many of the unit make one base unit
	aliases []string
}

// One table of units; an alias is in normal form (letters and digits only).
var units = [...]unitDefinition{
	NoUnit:            {perBase: 1},
	Yards:             {"yd", distance, 1, []string{"yd", "yds", "yard", "yards"}},
	Feet:              {"ft", distance, feetPerYard, []string{"ft", "foot", "feet"}},
	Metres:            {"m", distance, MetresPerYard, []string{"m", "metre", "metres", "meter", "meters"}},
	MilesPerHour:      {"mph", speed, 1, []string{"mph"}},
	MetresPerSecond:   {"m/s", speed, metresPerMile / 3600, []string{"ms", "mps"}},
	KilometresPerHour: {"km/h", speed, metresPerMile / 1000, []string{"kmh", "kph"}},
	Degrees:           {"deg", plainNumber, 1, []string{"deg", "degree", "degrees"}},
}

func (u Unit) String() string { return units[u].symbol }

// ParseUnit reads a unit's symbol or name, such as "m" or "yards".
func ParseUnit(text string) (Unit, error) {
	if u := unitNamed(normalForm(text)); u != NoUnit {
		return u, nil
	}
	return NoUnit, fmt.Errorf("unknown unit %q: expected yd, ft, m, mph, m/s, km/h or deg", text)
}

func unitNamed(normal string) Unit {
	for u := Yards; int(u) < len(units); u++ {
		for _, alias := range units[u].aliases {
			if alias == normal {
				return u
			}
		}
	}
	return NoUnit
}

// normalForm lower-cases a name and keeps only its letters and digits.
func normalForm(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		if isNameRune(r) {
			b.WriteRune(r)
		}
	}
	return b.String()
}
