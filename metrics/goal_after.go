package metrics

// A Gain is strokes a round that a player could have, such as those of a
// priority once it is closed.
type Gain struct {
	Name     string
	PerRound float64 // strokes, not negative
}

// GoalAfter is one row of the table goal_after: the chance that one player
// reaches the goal in one round after a gain, by both methods of the table goal.
//
// The gain is taken as given, so the interval is that of the chance alone, and
// as had on every round alike, good or bad: a gain of 1.3 strokes takes two
// strokes off three rounds of ten and one off the other seven, at random. The
// spread of rounds stays as it is, which flatters a gain that mends the bad
// rounds and sells short one that adds to the good.
type GoalAfter struct {
	Player       string  `col:"player" about:"player as named in the log, null when the log names none"`
	Goal         string  `col:"goal" about:"par, par and strokes over it, or a score over 18 holes"`
	Gain         string  `col:"gain" about:"what is gained, such as a priority that is closed"`
	PerRound     float64 `col:"gain_per_round" unit:"strokes" about:"strokes a round that it gives; the part of a stroke is given in that share of rounds"`
	HolesChance  float64 `col:"chance_by_holes" unit:"share" about:"chance of the goal in one round after it, by holes"`
	HolesLo      float64 `col:"chance_by_holes_lo" unit:"share" about:"lower end of its 90 % interval (bootstrap over rounds), the gain taken as given"`
	HolesHi      float64 `col:"chance_by_holes_hi" unit:"share" about:"upper end of its 90 % interval"`
	RoundsChance float64 `col:"chance_by_rounds" unit:"share" about:"the same by rounds"`
	RoundsLo     float64 `col:"chance_by_rounds_lo" unit:"share" about:"lower end of its 90 % interval (Wilson), the gain taken as given"`
	RoundsHi     float64 `col:"chance_by_rounds_hi" unit:"share" about:"upper end of its 90 % interval"`
}

// After is one row for each gain of a player, in the order given. Gains are
// taken one by one: to have several at once, add them up. It is nil without a
// goal, or for a player without a complete hole.
func (f *GoalFigures) After(player string, gains []Gain) (rows []GoalAfter) {
	rounds := f.players[player]
	if rounds == nil {
		return nil
	}
	o := rounds.outlook(f.goal, &resamplers{seed: f.options.Seed})
	for _, gain := range gains {
		row := GoalAfter{Player: player, Goal: f.goal.String(), Gain: gain.Name, PerRound: gain.PerRound}
		row.HolesChance, row.HolesLo, row.HolesHi = o.byHoles(gain.PerRound)
		row.RoundsChance, row.RoundsLo, row.RoundsHi = o.byRounds(gain.PerRound)
		rows = append(rows, row)
	}
	return rows
}
