package golfer

// A Lie is where the ball lies, in the words a player writes down.
type Lie uint8

// The lies of the invented courses. NoLie stands for a ball in the hole.
const (
	NoLie Lie = iota
	Tee
	Fairway
	Fringe
	FirstCut
	Rough
	DeepRough
	Bermuda
	Fescue
	PineStraw
	FairwayBunker
	Bunker
	Plugged
	Trees
	Green
	lieCount
)

var lieWords = [lieCount]string{
	"", "tee", "fairway", "fringe", "first cut", "rough", "deep rough", "bermuda", "fescue",
	"pine straw", "fairway bunker", "bunker", "plugged", "trees", "green",
}

// String is the word for the lie in a shot log; empty for NoLie.
func (l Lie) String() string { return lieWords[l] }
