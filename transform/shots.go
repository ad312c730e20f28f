// Package transform derives from the raw columns of a log everything that
// follows from the rules of golf and the definitions of the trade: lie
// categories, distances from positions, where each stroke finished, proximity,
// classes, yardage bands and strokes gained. It is pure: a batch of whole
// rounds in, an enriched batch out.
package transform

import (
	"roundmill/ingest"
	"roundmill/transform/baseline"
)

// A Class says which part of the game a stroke belongs to.
type Class uint8

const (
	TeeShot Class = iota // from the tee of a par 4, 5 or 6
	Approach
	ShortGame // not a putt, within Options.ShortGameYd of the hole
	Putt      // from the green
	ClassCount
)

var classNames = [ClassCount]string{"tee shot", "approach", "short game", "putt"}

func (c Class) String() string { return classNames[c] }

// A Known is yes, no, or not known.
type Known int8

const (
	Unknown Known = -1
	No      Known = 0
	Yes     Known = 1
)

func known(yes bool) Known {
	if yes {
		return Yes
	}
	return No
}

// Options are the settings that definitions hang on. The zero value of a field
// takes its default.
type Options struct {
	Baseline    *baseline.Table // baseline.Professional
	Lies        ingest.Lies     // ingest.DefaultLies
	BandsYd     []float64       // edges of the yardage bands; 50, 75 ... 250 yd
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

// Words is a text column: a code into a list for every row, -1 where absent.
type Words struct {
	Codes []int32
	List  []string
}

// At is the word of a row, "" where absent.
func (w Words) At(row int) string {
	if code := w.Codes[row]; code >= 0 {
		return w.List[code]
	}
	return ""
}

// Shots is a batch of enriched shots of whole rounds, as columns of length N.
// Distances are yards, wind is miles per hour; an absent number is NaN.
type Shots struct {
	N int

	// As logged.
	Player, Course, Tees, Round, Lie, Club, FinishLie             Words
	PinSide, PinDepth, PuttSlope, PuttBreak                       Words
	PenaltyKind, Intent, Fault, Note, SourceFile                  Words
	Date, Hole, Par, StrokeIndex, Shot, Penalty                   []int32 // Date in days since 1970-01-01; 0: no stroke index, no penalty
	SourceLine                                                    []int32
	HoleLengthYd, ToHoleYd, CourseRating, SlopeRating             []float64
	HeadwindMph, CrosswindMph, ElevationYd, GreenDepth, GreenWide []float64
	AimLongYd, AimRightYd                                         []float64

	// Derived.
	Season                        []int32
	Category                      []ingest.Category
	FinishYd                      []float64
	FinishCategory                []ingest.Category // NoCategory where not known
	ProximityFt                   []float64         // NaN after a penalty or a pick-up
	Class                         []Class
	AtGreen                       []bool
	Band                          []int32 // index of the yardage band, -1 outside all
	ExpectedBefore, ExpectedAfter []float64
	StrokesGained                 []float64
	LongYd, RightYd, PlaysLikeYd  []float64
	ShortSided                    []Known
	Holed, HoleComplete           []bool
	left, longShort, leftRight    []float64
	holedAsLogged                 []Known
	holeState                     []int32
	ballX, ballY                  []float64 // east and north of the hole, yards; nil without positions
	BandsYd                       []float64
	Holes                         Holes
	Rounds                        Rounds
	latitude, longitude           []float64
	holeLatitude, holeLongitude   []float64
	localX, localY, holeX, holeY  []float64
}

// Enrich derives all columns of a batch of whole rounds.
func Enrich(batch *ingest.Batch, options Options) *Shots {
	options = options.WithDefaults()
	s := load(batch.Record)
	s.BandsYd = options.BandsYd
	s.readLies(options.Lies)
	s.spanHoles(batch.RoundRows)
	s.locate()
	for hole := range s.Holes.Len() {
		s.walk(s.Holes.rows(hole, s.N), options.Lies)
	}
	s.classify(options)
	s.gain(options.Baseline)
	s.addHoles()
	s.addRounds()
	return s
}

// readLies puts every lie word into its category, once per word.
func (s *Shots) readLies(lies ingest.Lies) {
	categories := make([]ingest.Category, len(s.Lie.List))
	for code, word := range s.Lie.List {
		categories[code] = lies[word]
	}
	s.Category = make([]ingest.Category, s.N)
	for row, code := range s.Lie.Codes {
		if code >= 0 {
			s.Category[row] = categories[code]
		}
	}
}
