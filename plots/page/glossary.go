package page

import "roundmill/plots"

// glossary are the terms of the page in plain words.
func (p *player) glossary() []term {
	short := plots.Number(p.units.FromYards(p.report.Display.ShortGameYd), 0) + " " + p.units.Long()
	return []term{
		{"Benchmark", "What strokes are measured against: how many strokes it takes on average to hole out from each distance and lie."},
		{"Strokes gained", "Of one stroke: what the benchmark needs to hole out from where it was played, less what it needs from where the ball finished, less one, less penalties. Below zero strokes are lost. Over a hole they add up to the benchmark less the score."},
		{"A round", "18 complete holes, whatever the number of holes on a day."},
		{"Complete hole", "A hole logged stroke by stroke from the tee until the ball is holed; for scores also one whose score stands on a scorecard. Other holes are in no score and in no strokes gained."},
		{"90 % interval", "The range in which the true figure lies nine times in ten, as far as chance goes. Written in brackets: 1.7 (1.4 to 2.0). Where it spans zero, a gain or a loss is not shown. It narrows with more rounds."},
		{"Chance of being behind", "How likely it is that the player's true figure is below the benchmark's. It does not say that the order of the parts is right: of so many parts one passes 95 % by chance now and then."},
		{"Tee shot", "The stroke from the tee of a par 4 or longer. That from the tee of a par 3 is an approach."},
		{"Approach", "A stroke at the green, or on the way to it, that is no tee shot, no putt and no short game."},
		{"Short game", "A stroke from near the green that is no putt: from within " + short + "."},
		{"Up and down", "A hole finished in two strokes or fewer from the first stroke of the short game."},
		{"Short-sided", "A green missed on the side where the hole is cut, with little green to play to."},
		{"Median", "The middle one: half of the shots are nearer, or shorter, and half are not."},
		{"Recovery", "A lie from which the green cannot be played at, such as among trees."},
		{"To par", "Score less par: +2 is two over."},
		{"Start line and pace", "The direction a putt starts in, misread greens among it, and how well its length is judged."},
		{"Differential, index", "A score set against the rating of the course; the index is made of the lowest differentials of the last twenty scores."},
	}
}
