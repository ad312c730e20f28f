package transform

import (
	"roundmill/ingest"
	"roundmill/transform/baseline"
)

// Options are the settings that definitions hang on. The zero value of a field
// takes its default.
type Options struct {
	Baseline    *baseline.Table // baseline.Professional
	Lies        ingest.Lies     // ingest.DefaultLies
	BandsYd     []float64       // rising edges of the yardage bands; 50, 75 ... 250 yd
	ShortGameYd float64         // 50, itself short game
	ReachYd     float64         // 250, itself in reach
}

// Default bounds in yards.
const (
	DefaultShortGameYd = 50
	DefaultReachYd     = 250
)

// DefaultBandsYd are the edges of the yardage bands: 50, 75, ... 250 yd.
func DefaultBandsYd() (edges []float64) {
	for yards := 50.0; yards <= 250; yards += 25 {
		edges = append(edges, yards)
	}
	return edges
}

// WithDefaults fills in what is not set.
func (o Options) WithDefaults() Options {
	if o.Baseline == nil {
		o.Baseline = baseline.Professional()
	}
	if o.Lies == nil {
		o.Lies = ingest.DefaultLies()
	}
	if o.BandsYd == nil {
		o.BandsYd = DefaultBandsYd()
	}
	if o.ShortGameYd == 0 {
		o.ShortGameYd = DefaultShortGameYd
	}
	if o.ReachYd == 0 {
		o.ReachYd = DefaultReachYd
	}
	return o
}
