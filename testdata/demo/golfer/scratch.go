package golfer

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// Scratch is the invented amateur of the demo season: about scratch, long enough, wild at times
// off the tee, and lost on bermuda.
func Scratch() Player {
	return Player{
		Name: "Wenlo Tarrowby",
		Clubs: []Club{
			{"driver", 270, 4.5, 4.5},
			{"3 wood", 245, 4.1, 5.0},
			{"4 hybrid", 215, 4.1, 5.5},
			{"4i", 207, 4.3, 6.0},
			{"5i", 194, 4.3, 6.0},
			{"6i", 182, 4.2, 6.0},
			{"7i", 170, 4.1, 6.0},
			{"8i", 157, 4.0, 6.0},
			{"9i", 144, 3.9, 6.0},
			{"PW", 131, 3.7, 5.8},
			{"50", 117, 3.5, 5.6},
			{"54", 98, 3.4, 5.6},
			{"58", 82, 3.5, 6.5},
		},
		Lies: [lieCount]LieSkill{
			Tee:           {1, 1, 1, 0},
			Fairway:       {1, 1, 1, 1},
			Fringe:        {1, 1, 1, 1},
			FirstCut:      {1.05, 1.1, 1, 1},
			Rough:         {1.25, 1.4, 0.97, 2},
			DeepRough:     {1.6, 1.8, 0.88, 5},
			Bermuda:       {1.4, 1.6, 0.95, 3},
			Fescue:        {1.5, 1.7, 0.92, 4},
			PineStraw:     {1.3, 1.4, 0.96, 3},
			FairwayBunker: {1.3, 1.5, 0.94, 4},
			Bunker:        {1.4, 2.0, 0.90, 9},
			Plugged:       {2.0, 3.0, 0.50, 11},
			Trees:         {1.8, 2.0, 0.85, 3},
		},
		Touch: [lieCount]TouchSkill{
			Tee:           {3.6, 13, 0.015},
			Fairway:       {4, 13, 0.03},
			Fringe:        {1.9, 8.5, 0},
			FirstCut:      {4, 12, 0.03},
			Rough:         {4, 12, 0.04},
			DeepRough:     {6, 20, 0.06},
			Bermuda:       {7.5, 27, 0.11},
			Fescue:        {6, 20, 0.06},
			PineStraw:     {5, 16, 0.04},
			FairwayBunker: {6, 22, 0.06},
			Bunker:        {7.5, 24, 0.06},
			Plugged:       {8, 28, 0.12},
			Trees:         {7, 24, 0.08},
		},
		Putting: PuttingSkill{LineDeg: 1.1, PacePct: 8.5, Uphill: 0.93, Downhill: 1.12, Breaking: 1.12},
		Weather: WeatherSkill{IntoPct: 1.15, DownPct: 0.45, DriftPct: 0.5, DriftAllowed: 0.7, RiseYd: 1.1},
		Habits: Habits{
			Attack: 0.55, NarrowYd: 28, LayUpYd: 95, GoForIt: 0.6, NotesFaults: 0.6, PicksUpAt: 3,
		},
		PartSwing:   1.3,
		PitchLoss:   0.25,
		StockPull:   0.3,
		MishitShare: 0.05,
		MishitLine:  1.5,
		FormSpread:  0.03,
		Improvement: 0.05,
	}
}

var (
	givenNames = []string{
		"Wenlo", "Ardis", "Brevik", "Calla", "Dunmar", "Elspor", "Fenric", "Gildo", "Harlis", "Isaro",
		"Jorvane", "Kestrin", "Lomund", "Marwyn", "Nessil", "Orvane", "Pellis", "Quinlo", "Rasmel", "Sorrick",
	}
	familyNames = []string{
		"Tarrowby", "Askelind", "Brindmoor", "Corvasse", "Dellowin", "Estermoth", "Farrowick", "Grentholm",
		"Hollanby", "Inverlode", "Jasperon", "Kelvarow", "Lundermay", "Morrowlin", "Nethersby", "Ostrallin-Vey",
		"Pellowick", "Quarrendy", "Rossiwell", "Sandermoth",
	}
)

// Amateur is one of a field of invented players: the first is Scratch, the others resemble him,
// shorter or longer, better or worse by some ten per cent in each part of the game.
func Amateur(seed uint64, index int) Player {
	player := Scratch()
	if index == 0 {
		return player
	}
	given, family := len(givenNames), len(familyNames)
	player.Name = givenNames[index%given] + " " + familyNames[(index/given+index)%family]
	if again := index / (given * family); again > 0 {
		player.Name = fmt.Sprintf("%s %d", player.Name, again+1)
	}
	rng := rand.New(rand.NewPCG(seed, ^uint64(index)))
	factor := func(spread float64) float64 { return math.Exp(spread * rng.NormFloat64()) }
	length, line, distance, touch := factor(0.04), factor(0.1), factor(0.1), factor(0.1)
	for i := range player.Clubs {
		club := &player.Clubs[i]
		club.StockYd = math.Round(club.StockYd * length)
		club.LineDeg *= line
		club.DistancePct *= distance
	}
	for i := range player.Touch {
		player.Touch[i].LineDeg *= touch
		player.Touch[i].DistancePct *= touch
	}
	player.Putting.LineDeg *= factor(0.1)
	player.Putting.PacePct *= factor(0.1)
	player.Improvement *= factor(0.5)
	return player
}
