// Package transform derives from the raw columns of a log everything that
// follows from the rules of golf and the definitions of the trade: lie
// categories, distances from positions, where each stroke finished, proximity,
// classes, yardage bands and strokes gained. It is pure: a batch of whole
// rounds in, an enriched batch out.
package transform

import (
	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"

	"roundmill/ingest"
)

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

// Words is a text column: a code into a list for every row, -1 where absent.
type Words struct {
	Codes []int32
	List  []string
	list  *array.String // the same, as the reader gave it
}

// At is the word of a row, "" where absent.
func (w Words) At(row int) string {
	if code := w.Codes[row]; code >= 0 {
		return w.List[code]
	}
	return ""
}

// Shots is a batch of enriched shots of whole rounds, as columns of length N.
// Distances are yards, wind is miles per hour; an absent number is NaN. Columns
// may share memory with the raw batch and with one another: they are to be read
// only.
//
// A hole of which a scorecard gives the score alone has one row, which is no
// stroke: its class is NoClass and what strokes tell is absent. Strokes is the
// batch without such rows.
type Shots struct {
	N       int
	BandsYd []float64 // edges of the yardage bands

	// As logged.
	Player, Course, Tees, Round, Lie, Club, FinishLie             Words
	PinSide, PinDepth, PuttSlope, PuttBreak                       Words
	PenaltyKind, Intent, Fault, Note, SourceFile                  Words
	Date, Hole, Par, StrokeIndex, Shot, Penalty                   []int32 // Date in days since 1970-01-01; 0: no stroke index, no penalty, no shot but a scorecard's hole
	SourceLine                                                    []int32
	CourseRating, SlopeRating                                     []float64
	HeadwindMph, CrosswindMph, ElevationYd, GreenDepth, GreenWide []float64
	AimLongYd, AimRightYd                                         []float64

	// As logged, or derived where the log does not say.
	HoleLengthYd, ToHoleYd []float64

	// Derived.
	Season                        []int32 // year of the date
	LieSpelled                    Words   // Lie as the table of lie words spells it; not a column of a table
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
	Holes                         Holes
	Rounds                        Rounds

	strokes                      *Shots // see Strokes
	raw                          arrow.RecordBatch
	left, longShort, leftRight   []float64
	holedAsLogged                []Known
	holeState                    []int32
	latitude, longitude          []float64
	holeLatitude, holeLongitude  []float64
	localX, localY, holeX, holeY []float64
	score, putts                 []int32 // of a scorecard, -1 where it does not say
	fairway, green               []Known
	ballX, ballY                 []float64 // east and north of the hole, yards; nil without positions
}

// Enrich derives all columns of a batch of whole rounds, whose Record is there.
func Enrich(batch *ingest.Batch, options Options) *Shots {
	options = options.WithDefaults()
	s := enrich(batch, options)
	s.strokes = s
	if batch.Strokes != nil {
		s.strokes = enrich(batch.Strokes, options)
		s.strokes.strokes = s.strokes
	}
	return s
}

// Strokes is the batch without the holes of scorecards: what all figures but
// scores are made of. Without any, it is the batch itself.
func (s *Shots) Strokes() *Shots { return s.strokes }

// isScorecard reports whether a row is that of a hole on a scorecard.
func (s *Shots) isScorecard(row int) bool { return s.Class[row] == NoClass }

func enrich(batch *ingest.Batch, options Options) *Shots {
	s := load(batch.Record)
	s.BandsYd = options.BandsYd
	s.Category = s.Lie.categories(options.Lies.Category)
	s.LieSpelled = s.Lie.spelled(options.Lies.Spelling)
	s.spanHoles(batch.RoundRows)
	s.locate()
	s.walk(options.Lies)
	s.classify(options)
	s.miss()
	s.shortSide()
	s.playLike()
	s.gain(options.Baseline)
	s.addHoles()
	s.addRounds()
	return s
}
