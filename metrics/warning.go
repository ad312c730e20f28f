package metrics

import (
	"math"
	"strconv"
	"strings"

	"roundmill/ingest"
)

// A Warning stands beside a figure that cannot be trusted, or that is not there.
type Warning struct {
	Figure string `json:"figure"` // table or chart
	Player string `json:"player,omitempty"`
	Text   string `json:"text"`
}

// distance is a distance, or a range between two, as warnings give it.
func (o *Options) distance(yards ...float64) string {
	unit, perYard := "yd", 1.0
	if o.Metres {
		unit, perYard = "m", ingest.MetresPerYard
	}
	var ends []string
	for _, end := range yards {
		ends = append(ends, oneDecimal(end*perYard))
	}
	return strings.Join(ends, "-") + " " + unit
}

// oneDecimal prints a number with one decimal where it needs one.
func oneDecimal(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }
