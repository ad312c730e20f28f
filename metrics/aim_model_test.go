package metrics

import (
	"math"
	"math/rand/v2"
	"testing"

	"roundmill/ingest"
	"roundmill/transform/baseline"
)

var usualGreen = aimGreen{depthYd: usualDepthYd, widthYd: usualWidthYd}

func cutAt(yd float64) aimGreen {
	green := usualGreen
	green.cutYd = yd
	return green
}

// spread is a pattern without bias.
func spread(rightSD, longSD, correlation float64) missPattern {
	return missPattern{rightVar: rightSD * rightSD, longVar: longSD * longSD, covariance: correlation * rightSD * longSD}
}

// aimAt is the kernel of a pattern on a green of its own lattice.
func aimAt(p missPattern, green aimGreen) *aimKernel {
	p = p.widened()
	lattice := newAimLattice(p, green.toMiddleYd())
	kernel := &aimKernel{}
	kernel.fit(lattice, p)
	rough, onGreens := lattice.strokes(baseline.Professional(), []aimGreen{green})
	kernel.sumRough(rough)
	kernel.sumGreen(onGreens[0])
	return kernel
}

func TestHoleInTheMiddleIsTheTarget(t *testing.T) {
	for _, p := range []missPattern{spread(2, 3, 0), spread(6, 7, 0), spread(6, 8, 0.5), spread(11, 13, -0.3)} {
		if offset := aimAt(p, cutAt(usualWidthYd/2.0)).best(); math.Abs(offset) > 0.02 {
			t.Errorf("%+v: %.3f yd from the hole", p, offset)
		}
	}
}

func TestWithoutSpreadTheFlagIsTheTargetAndCostsTheBaselineAtTheHole(t *testing.T) {
	table := baseline.Professional()
	for _, cut := range aimCutsYd {
		kernel := aimAt(missPattern{}, cutAt(cut))
		if offset := kernel.best(); math.Abs(offset) > narrowestYd*2 {
			t.Errorf("cut %v yd: %.3f yd from the hole", cut, offset)
		}
		if strokes, want := kernel.expected(0), table.Strokes(ingest.Green, 0); math.Abs(strokes-want) > 1e-4 {
			t.Errorf("cut %v yd: %.5f strokes, the baseline has %v", cut, strokes, want)
		}
	}
}

// A bias moves the whole pattern, so the target moves as far the other way.
func TestBiasShiftsTheTargetByAsMuch(t *testing.T) {
	for _, cut := range aimCutsYd {
		p := spread(6, 7, 0.2)
		straight := aimAt(p, cutAt(cut)).best()
		for _, bias := range []float64{-4, -1, 2.5, 5} {
			p.right = bias
			if offset := aimAt(p, cutAt(cut)).best() - p.right; math.Abs(offset-(straight-bias)) > 0.05 {
				t.Errorf("cut %v yd, bias %v yd: offset %.3f yd, %.3f without", cut, bias, offset, straight)
			}
		}
	}
}

// Up to 9 yd across. A pattern much wider than the green has little green to
// win, and comes back towards the flag: with the hole 3 yd from the side the
// best target goes from 4.5 yd at 9.5 yd of spread to 4.1 at 12, in a plain sum
// over fine steps too.
func TestWiderSpreadNeverAimsCloserToTheFlagWhileTheGreenIsLargeBesideIt(t *testing.T) {
	for _, cut := range aimCutsYd {
		before := 0.0
		for sd := 1.0; sd <= 9; sd += 0.5 {
			offset := aimAt(spread(sd, 1.2*sd, 0), cutAt(cut)).best()
			if offset < before-0.05 {
				t.Errorf("cut %v yd: spread %v yd aims at %.3f yd, less spread at %.3f", cut, sd, offset, before)
			}
			before = offset
		}
		if before < 1 {
			t.Errorf("cut %v yd: a spread of 9 yd aims at %.3f yd", cut, before)
		}
	}
}

func TestFarTooWideAPatternComesBackTowardsTheFlag(t *testing.T) {
	table, green := baseline.Professional(), cutAt(3)
	for _, at := range []struct{ sd, offset float64 }{{9.5, 4.5}, {12, 4.1}} {
		p := spread(at.sd, 1.2*at.sd, 0)
		if offset := aimAt(p, green).best(); math.Abs(offset-at.offset) > 0.05 {
			t.Errorf("spread %v yd: offset %.3f yd", at.sd, offset)
		}
		best := finely(table, green, p, at.offset, 0.2)
		for _, other := range []float64{at.offset - 0.5, at.offset + 0.5} {
			if strokes := finely(table, green, p, other, 0.2); strokes <= best {
				t.Errorf("spread %v yd: %.6f strokes at %v yd, %.6f at %v", at.sd, strokes, other, best, at.offset)
			}
		}
	}
}

// The hole near the right side, shots drawn without a mirror: a pattern that
// misses short to the left and long to the right is told apart by side.
func TestHoleNearTheRightSideAgreesWithSimulatedShots(t *testing.T) {
	const shots, offset = 400_000, 3
	table, green := baseline.Professional(), cutAt(5)
	p := spread(6, 8, 0.6)
	p.right, p.long = 1.5, -6
	random := rand.New(rand.NewPCG(3, 1))
	var left, right strokesSeen
	for range shots {
		across, along := p.draw(random)
		left.add(playedOut(table, green, across+offset, along))
		right.add(playedOut(table, green, -(across - offset), along))
	}
	mirror := p.mirrored()
	for _, side := range []struct {
		name string
		got  float64
		sim  strokesSeen
	}{
		{LeftSide, aimAt(p, green).expected(p.right + offset), left},
		{RightSide, aimAt(mirror, green).expected(mirror.right + offset), right},
	} {
		if mean, se := side.sim.mean(); math.Abs(side.got-mean) > 4*se+0.001 {
			t.Errorf("%s: %.5f, simulated %.5f ± %.5f", side.name, side.got, mean, se)
		}
	}
}

// draw is one miss of the pattern.
func (p missPattern) draw(random *rand.Rand) (right, long float64) {
	slope := p.covariance / p.rightVar
	right = math.Sqrt(p.rightVar) * random.NormFloat64()
	return p.right + right, p.long + slope*right + math.Sqrt(p.longVar-slope*p.covariance)*random.NormFloat64()
}

// patternsToTry are a spread of widths, biases and correlations.
func patternsToTry() (patterns []missPattern) {
	random := rand.New(rand.NewPCG(5, 0))
	for range 30 {
		right := 2 + 10*random.Float64()
		p := spread(right, right*(0.6+random.Float64()), 1.4*random.Float64()-0.7)
		p.right, p.long = 6*random.Float64()-3, 10*random.Float64()-7
		patterns = append(patterns, p)
	}
	return patterns
}

// Brute force: shots drawn from the pattern, each played out by the baseline.
func TestExpectedStrokesAgreeWithSimulatedShots(t *testing.T) {
	const shots = 1_000_000
	if testing.Short() {
		t.Skip("draws eight million shots")
	}
	table := baseline.Professional()
	for i, p := range patternsToTry()[:8] {
		green := cutAt(aimCutsYd[i%len(aimCutsYd)])
		kernel := aimAt(p, green)
		offset := kernel.best() - p.right
		random := rand.New(rand.NewPCG(uint64(i), 1))
		var flag, best, saved strokesSeen
		for range shots {
			right, long := p.draw(random)
			atFlag, atBest := playedOut(table, green, right, long), playedOut(table, green, right+offset, long)
			flag.add(atFlag)
			best.add(atBest)
			saved.add(atFlag - atBest)
		}
		const lattice = 0.001
		for _, check := range []struct {
			name string
			got  float64
			sim  strokesSeen
		}{
			{"flag", kernel.expected(p.right), flag},
			{"best", kernel.expected(p.right + offset), best},
			{"saved", kernel.expected(p.right) - kernel.expected(p.right+offset), saved},
		} {
			mean, se := check.sim.mean()
			if math.Abs(check.got-mean) > 4*se+lattice {
				t.Errorf("%+v, cut %v yd, %s: %.5f, simulated %.5f ± %.5f", p, green.cutYd, check.name, check.got, mean, se)
			}
		}
	}
}

type strokesSeen struct{ n, sum, squares float64 }

func (s *strokesSeen) add(v float64) { s.n++; s.sum += v; s.squares += v * v }
func (s *strokesSeen) mean() (mean, se float64) {
	mean = s.sum / s.n
	return mean, math.Sqrt((s.squares/s.n - mean*mean) / s.n)
}

func playedOut(table *baseline.Table, green aimGreen, right, long float64) float64 {
	across, along := (right-green.widthYd/2+green.cutYd)/(green.widthYd/2), long/(green.depthYd/2)
	if math.Hypot(across, along) <= 1 {
		return table.Strokes(ingest.Green, math.Hypot(right, long))
	}
	return table.Strokes(ingest.Rough, math.Hypot(right, long))
}

// What a green adds to strokes from rough ends within its patch, unless the
// lattice does.
func TestAGreenChangesNothingBeyondItsPatch(t *testing.T) {
	inside := 0
	for _, p := range []missPattern{spread(0.5, 0.5, 0), spread(3, 4, 0), spread(6, 8, 0.5), spread(11, 13, -0.3), spread(25, 30, 0.9)} {
		for _, cut := range aimCutsYd {
			green := cutAt(cut)
			lattice := newAimLattice(p, green.toMiddleYd())
			_, onGreens := lattice.strokes(baseline.Professional(), []aimGreen{green})
			on := onGreens[0]
			for at, strokes := range on.strokes {
				row, column := on.firstRow+at/on.columns, on.firstColumn+at%on.columns
				edge := row == on.firstRow && row > 0 || row == on.firstRow+on.rows-1 && row < lattice.rows-1 ||
					column == on.firstColumn && column > 0 || column == on.firstColumn+on.columns-1 && column < lattice.columns-1
				switch {
				case edge && strokes != 0:
					t.Errorf("%+v, cut %v yd: %v strokes at row %d, column %d", p, cut, strokes, row, column)
				case !edge && strokes < 0:
					inside++
				}
			}
		}
	}
	if inside < 1000 {
		t.Errorf("only %d points lie on a green", inside)
	}
}

// Within the error that the comment on aimLattice states, against a plain sum
// over five deviations in steps of 0.1 yd.
func TestLatticeIsAsExactAsItSays(t *testing.T) {
	if testing.Short() {
		t.Skip("sums finely")
	}
	table := baseline.Professional()
	worst, worstSaved, worstLoss := 0.0, 0.0, 0.0
	for i, p := range patternsToTry() {
		green := cutAt(aimCutsYd[i%len(aimCutsYd)])
		kernel := aimAt(p, green)
		offset := kernel.best() - p.right
		strokesAt := func(offset float64) float64 { return finely(table, green, p, offset, 0.1) }
		flag, best := strokesAt(0), strokesAt(offset)
		worst = max(worst, math.Abs(flag-kernel.expected(p.right)), math.Abs(best-kernel.expected(p.right+offset)))
		worstSaved = max(worstSaved, math.Abs(flag-best-(kernel.expected(p.right)-kernel.expected(p.right+offset))))
		worstLoss = max(worstLoss, best-min(strokesAt(offset-0.3), strokesAt(offset+0.3)))
	}
	t.Logf("worst error %.6f, of a difference %.6f; a target 0.3 yd away is better by %.6f at most", worst, worstSaved, worstLoss)
	if worst > 0.001 || worstSaved > 0.001 || worstLoss > 0.0001 {
		t.Errorf("worst error %.6f, of a difference %.6f; a target 0.3 yd away is better by %.6f", worst, worstSaved, worstLoss)
	}
}

func finely(table *baseline.Table, green aimGreen, p missPattern, offset, step float64) float64 {
	const tail = 5
	slope := p.covariance / p.longVar
	acrossSD, longSD := math.Sqrt(p.rightVar-slope*p.covariance), math.Sqrt(p.longVar)
	sum, total := 0.0, 0.0
	for long := -tail * longSD; long <= tail*longSD; long += step {
		for right := -tail * acrossSD; right <= tail*acrossSD; right += step {
			weight := math.Exp(-(long*long/(longSD*longSD) + right*right/(acrossSD*acrossSD)) / 2)
			sum += weight * playedOut(table, green, offset+p.right+slope*long+right, p.long+long)
			total += weight
		}
	}
	return sum / total
}
