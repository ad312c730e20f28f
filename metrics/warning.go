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
	var ends []string
	for _, end := range yards {
		ends = append(ends, o.distanceNumber(end))
	}
	if o.Metres {
		return strings.Join(ends, "-") + " m"
	}
	return strings.Join(ends, "-") + " yd"
}

// distanceNumber is a distance without its unit, as flags take it.
func (o *Options) distanceNumber(yards float64) string {
	if o.Metres {
		return oneDecimal(yards * ingest.MetresPerYard)
	}
	return oneDecimal(yards)
}

// oneDecimal prints a number with one decimal where it needs one.
func oneDecimal(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }
