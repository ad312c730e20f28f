package metrics

import "math"

// AimAssumptions says what the advice on aim takes for granted. It is to be
// printed wherever the advice is.
const AimAssumptions = "A model, not a count. It takes misses about the target to be normal with the player's own mean and covariance, " +
	"the same wherever the target is; where the log gives positions and no aim, the target is taken as the hole. " +
	"The green is a flat ellipse of the mean logged size (30 yd deep and 25 yd wide where none is logged), " +
	"with the hole level with its middle; every ball off it lies in rough, sand and water beside it are not known. " +
	"A penalty is as likely wherever the target is. What a ball then costs is the baseline's, not the player's own."

// missPattern is the two-dimensional normal that misses about the target are
// taken from, in yards: long and right are positive.
type missPattern struct {
	right, long                   float64 // means
	rightVar, longVar, covariance float64
}

// narrowestYd is the least standard deviation that the lattice resolves; a
// pattern narrower than that is taken as that wide.
const narrowestYd = 0.1

func (p missPattern) widened() missPattern {
	p.rightVar, p.longVar = max(p.rightVar, narrowestYd*narrowestYd), max(p.longVar, narrowestYd*narrowestYd)
	return p
}

// mirrored is the pattern seen in a mirror: a hole cut near the right side is
// one near the left side for it.
func (p missPattern) mirrored() missPattern {
	p.right, p.covariance = -p.right, -p.covariance
	return p
}

// acrossVar is the variance of the miss across the line at a given miss along
// it.
func (p missPattern) acrossVar() float64 {
	return p.rightVar - p.covariance*p.covariance/p.longVar
}

// aimGreen is an elliptical green; the hole is cutYd from its left side, level
// with its middle.
type aimGreen struct{ depthYd, widthYd, cutYd float64 }

// toMiddleYd is the distance from the hole to the middle of the green.
func (g aimGreen) toMiddleYd() float64 { return g.widthYd/2 - g.cutYd }

// holds reports whether a ball at rest right and long of the hole is on the green.
func (g aimGreen) holds(right, long float64) bool {
	across, along := (right-g.toMiddleYd())/(g.widthYd/2), long/(g.depthYd/2)
	return across*across+along*along <= 1
}

// aimKernel is a pattern as weights on a lattice: rows by the miss along the
// line, each row sheared to its mean miss across, and one normal across.
type aimKernel struct {
	rows       []sheared
	acrossSD   float64
	across     []float64 // weights of columns 0, 1, 2 ... from the mean
	rough      []float64 // strokes by column, summed over rows: were there no green
	onto       []float64 // with a green
	perLattice *aimLattice
}

type sheared struct {
	weight, part float64
	shift        int
}

// fit makes the kernel of a pattern.
func (k *aimKernel) fit(l *aimLattice, p missPattern) {
	k.perLattice = l
	k.rows = resized(k.rows, l.rows)
	k.rough, k.onto = resized(k.rough, l.columns-2*l.margin), resized(k.onto, l.columns-2*l.margin)
	alongVar := atLeastHalfAStep(p.longVar-l.alongYd*l.alongYd/6, l.alongYd)
	shear := p.covariance / alongVar
	total, interpolation := 0.0, 0.0
	for j := range k.rows {
		long := float64(l.firstRow+j)*l.alongYd - p.long
		weight := math.Exp(-long * long / (2 * alongVar))
		columns := min(max(shear*long/l.acrossYd, float64(-l.margin)), float64(l.margin-1))
		shift := math.Floor(columns)
		part := columns - shift
		k.rows[j] = sheared{weight, part, int(shift)}
		total += weight
		interpolation += weight * part * (1 - part)
	}
	for j := range k.rows {
		k.rows[j].weight /= total
	}
	tents := (1.0/6 + interpolation/total) * l.acrossYd * l.acrossYd
	acrossVar := atLeastHalfAStep(p.rightVar-shear*shear*alongVar-tents, l.acrossYd)
	k.acrossSD = math.Sqrt(acrossVar)
	k.across = resized(k.across, int(tailDeviations*k.acrossSD/l.acrossYd)+1)
	for i := range k.across {
		right := float64(i) * l.acrossYd
		k.across[i] = math.Exp(-right * right / (2 * acrossVar))
	}
}

// atLeastHalfAStep keeps a variance where the lattice can carry it.
func atLeastHalfAStep(variance, step float64) float64 { return max(variance, step*step/4) }

func resized[V any](values []V, n int) []V {
	if cap(values) < n {
		return make([]V, n)
	}
	return values[:n]
}

// sumRough weights the rows of strokes from rough, for every green to come.
func (k *aimKernel) sumRough(rough patch) {
	clear(k.rough)
	k.addRows(k.rough, rough)
}

// sumGreen weights the rows of what a green adds to them; expected and best then
// speak of both together.
func (k *aimKernel) sumGreen(onGreen patch) {
	copy(k.onto, k.rough)
	k.addRows(k.onto, onGreen)
}

// addRows adds the weighted rows of a patch, which is 0 at its first and last
// column or ends beyond what rows are sheared to.
func (k *aimKernel) addRows(onto []float64, p patch) {
	for j := max(0, -p.firstRow); j < min(p.rows, len(k.rows)-p.firstRow); j++ {
		row := k.rows[p.firstRow+j]
		first := k.perLattice.margin + row.shift - p.firstColumn // in the patch, of the columns summed
		from, to := max(0, -first), min(len(onto), p.columns-1-first)
		if from >= to {
			continue
		}
		sums, strokes := onto[from:to], p.strokes[j*p.columns+first+from:][:to-from+1]
		this, next := row.weight*(1-row.part), row.weight*row.part
		for i := range sums {
			sums[i] += this*strokes[i] + next*strokes[i+1]
		}
	}
}

// expected is the mean strokes to hole out with the pattern centred so many
// yards right of the hole.
func (k *aimKernel) expected(centreYd float64) float64 {
	l := k.perLattice
	centre := centreYd/l.acrossYd - float64(l.firstColumn+l.margin)
	reach := tailDeviations * k.acrossSD / l.acrossYd
	from, to := max(0, int(math.Ceil(centre-reach))), min(len(k.onto)-1, int(math.Floor(centre+reach)))
	// Weights exp(-x²/2) at steps of x: each is the one before times a ratio, which itself goes by a fixed ratio.
	step := l.acrossYd / k.acrossSD
	right := (float64(from) - centre) * step
	weight, ratio, ratios := math.Exp(-right*right/2), math.Exp(-step*(right+step/2)), math.Exp(-step*step)
	sum, total := 0.0, 0.0
	for _, strokes := range k.onto[from:max(from, to+1)] {
		sum += weight * strokes
		total += weight
		weight *= ratio
		ratio *= ratios
	}
	return sum / total
}

// best is where the centre of the pattern costs fewest strokes, in yards right
// of the hole: the best column, then the bottom of the parabola through it and
// its neighbours.
func (k *aimKernel) best() (centreYd float64) {
	l := k.perLattice
	at := func(column int) float64 {
		sum, total := k.across[0]*k.onto[column], k.across[0]
		for i := 1; i < len(k.across); i++ {
			left, right := column-i, column+i
			if left >= 0 && right < len(k.onto) {
				sum += k.across[i] * (k.onto[left] + k.onto[right])
				total += 2 * k.across[i]
			}
		}
		return sum / total
	}
	from, to := l.searchFrom, l.searchTo
	column, fewest := from, math.Inf(1)
	for i := from; i <= to; i++ {
		if strokes := at(i); strokes < fewest {
			column, fewest = i, strokes
		}
	}
	centre := float64(column)
	if column > from && column < to {
		before, after := at(column-1), at(column+1)
		if bend := before - 2*fewest + after; bend > 0 {
			centre += (before - after) / (2 * bend)
		}
	}
	return (centre + float64(l.firstColumn+l.margin)) * l.acrossYd
}
