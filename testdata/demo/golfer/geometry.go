package golfer

import "math"

// A Point is a place on a hole in yards: Y runs from the tee to the middle of the green, X to its right.
type Point struct{ X, Y float64 }

func (p Point) to(q Point) float64 { return math.Hypot(q.X-p.X, q.Y-p.Y) }

// A line of play starts at the ball; along it and to the right of it are its two axes.
type line struct {
	from     Point
	forward  Point // unit vector
	lengthYd float64
}

func lineTo(from, to Point) line {
	length := from.to(to)
	if length == 0 {
		return line{from: from, forward: Point{Y: 1}}
	}
	return line{from: from, forward: Point{(to.X - from.X) / length, (to.Y - from.Y) / length}, lengthYd: length}
}

// at is the place so many yards along the line and to the right of it.
func (l line) at(along, right float64) Point {
	return Point{
		l.from.X + along*l.forward.X + right*l.forward.Y,
		l.from.Y + along*l.forward.Y - right*l.forward.X,
	}
}

// off is the place reached at an angle to the line, positive to the right, in radians.
func (l line) off(distance, angle float64) Point {
	sin, cos := math.Sincos(angle)
	return l.at(distance*cos, distance*sin)
}

// split is the inverse of at.
func (l line) split(p Point) (along, right float64) {
	dx, dy := p.X-l.from.X, p.Y-l.from.Y
	return dx*l.forward.X + dy*l.forward.Y, dx*l.forward.Y - dy*l.forward.X
}

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }
