package golfer

const farYd = 1000 // beyond any ball

func outLeft(fromYd float64) Hazard  { return Hazard{OutOfBounds, -farYd, -fromYd, -farYd, farYd} }
func outRight(fromYd float64) Hazard { return Hazard{OutOfBounds, fromYd, farYd, -farYd, farYd} }
func creek(minY, maxY float64) Hazard {
	return Hazard{PenaltyArea, -farYd, farYd, minY, maxY}
}
func waterLeft(fromYd, minY, maxY float64) Hazard {
	return Hazard{PenaltyArea, -farYd, -fromYd, minY, maxY}
}
func waterRight(fromYd, minY, maxY float64) Hazard {
	return Hazard{PenaltyArea, fromYd, farYd, minY, maxY}
}
func sandLeft(fromYd, minY, maxY float64) Hazard {
	return Hazard{Sand, -fromYd - 12, -fromYd, minY, maxY}
}
func sandRight(fromYd, minY, maxY float64) Hazard {
	return Hazard{Sand, fromYd, fromYd + 12, minY, maxY}
}

// Courses are the four invented courses, the home course first.
func Courses() []*Course { return []*Course{home(), pines(), links(), downs()} }

func home() *Course {
	return &Course{
		Name: "Ostlewick Common", Tees: "white", Rating: 71.8, Slope: 129,
		Rough: Rough, Beyond: Trees, RoughYd: 13, WindMph: 8, WindFromDeg: 240,
		Holes: []Hole{
			// hole, par, yards, index, fairway, green depth and width, rise, bearing, green bunkers, hazards
			{1, 4, 384, 9, 34, 33, 29, -3, 20, Right, []Hazard{outRight(33)}},
			{2, 4, 411, 3, 31, 32, 27, 4, 65, Left, []Hazard{outRight(33), sandLeft(16, 235, 265)}},
			{3, 3, 168, 13, 0, 30, 28, -6, 150, Left | Right, nil},
			{4, 5, 518, 5, 33, 32, 28, 2, 200, Right | Back, []Hazard{waterRight(26, 210, 300), sandLeft(17, 240, 268)}},
			{5, 4, 356, 15, 27, 28, 26, 0, 285, Front | Left, []Hazard{sandRight(14, 225, 255)}},
			{6, 4, 429, 1, 32, 34, 30, 6, 340, Right, []Hazard{outLeft(34)}},
			{7, 3, 189, 11, 0, 33, 29, 3, 110, Left, nil},
			{8, 4, 372, 17, 33, 30, 27, -4, 240, Front, []Hazard{creek(336, 350)}},
			{9, 5, 505, 7, 35, 34, 29, 1, 190, Left | Right, []Hazard{sandRight(17, 250, 275)}},
			{10, 4, 398, 8, 32, 31, 28, -2, 15, Left, []Hazard{sandLeft(16, 245, 270)}},
			{11, 4, 340, 16, 26, 27, 25, 3, 95, Left | Right | Front, []Hazard{waterLeft(26, 180, 270)}},
			{12, 3, 154, 18, 0, 29, 26, -8, 300, Front | Right, []Hazard{creek(118, 132)}},
			{13, 5, 531, 6, 33, 33, 28, 5, 355, Left, []Hazard{outRight(33)}},
			{14, 4, 420, 2, 31, 33, 28, 0, 160, Right, []Hazard{sandRight(16, 240, 270)}},
			{15, 4, 392, 10, 32, 31, 27, -5, 210, Back | Right, []Hazard{outLeft(34)}},
			{16, 3, 201, 12, 0, 34, 30, 0, 60, Left, []Hazard{waterRight(21, 170, 225)}},
			{17, 4, 365, 14, 30, 30, 27, 2, 255, Left, []Hazard{sandLeft(15, 230, 255)}},
			{18, 5, 509, 4, 33, 35, 30, 4, 200, Left | Right, []Hazard{waterLeft(26, 190, 290)}},
		},
	}
}

func pines() *Course {
	return &Course{
		Name: "Tamberlow Pines", Tees: "blue", Rating: 70.9, Slope: 133,
		Rough: Bermuda, Beyond: Trees, RoughYd: 13, WindMph: 6, WindFromDeg: 180,
		Holes: []Hole{
			{1, 4, 390, 11, 33, 32, 28, 0, 90, Left, nil},
			{2, 5, 522, 7, 34, 33, 28, 3, 140, Right, []Hazard{waterRight(26, 220, 310)}},
			{3, 4, 408, 3, 31, 31, 27, -2, 230, Left | Right, nil},
			{4, 3, 176, 15, 0, 31, 28, 0, 275, Front, []Hazard{creek(130, 150)}},
			{5, 4, 352, 17, 27, 28, 26, 2, 310, Right, []Hazard{sandLeft(14, 225, 255)}},
			{6, 4, 426, 1, 32, 33, 29, 4, 30, Left, []Hazard{outRight(33)}},
			{7, 4, 381, 9, 32, 30, 28, -3, 75, Back, nil},
			{8, 3, 194, 13, 0, 33, 29, 1, 190, Right, nil},
			{9, 5, 512, 5, 33, 33, 28, 0, 260, Left | Right, []Hazard{sandRight(17, 245, 270)}},
			{10, 4, 402, 6, 32, 32, 28, 2, 100, Right, nil},
			{11, 4, 366, 14, 30, 30, 26, -4, 170, Left, []Hazard{waterLeft(26, 200, 280)}},
			{12, 5, 538, 8, 33, 33, 29, 3, 220, Right, nil},
			{13, 3, 161, 18, 0, 29, 27, -5, 330, Left | Front, nil},
			{14, 4, 415, 2, 31, 32, 28, 1, 20, Right, []Hazard{sandRight(16, 240, 268)}},
			{15, 4, 377, 12, 31, 30, 27, 0, 60, Left | Right, nil},
			{16, 4, 345, 16, 27, 27, 25, 0, 120, Front, []Hazard{sandRight(14, 220, 250)}},
			{17, 3, 183, 10, 0, 32, 28, -2, 200, Right, []Hazard{waterRight(22, 150, 205)}},
			{18, 4, 423, 4, 33, 34, 29, 3, 280, Left, nil},
		},
	}
}

func links() *Course {
	return &Course{
		Name: "Varrowfen Sands", Tees: "yellow", Rating: 70.2, Slope: 126,
		Rough: Fescue, Beyond: Fescue, RoughYd: 22, WindMph: 13, WindFromDeg: 255,
		Holes: []Hole{
			{1, 4, 376, 10, 36, 36, 31, 0, 350, Left, nil},
			{2, 4, 404, 4, 35, 35, 31, 2, 5, Right, []Hazard{outRight(33)}},
			{3, 5, 508, 8, 36, 36, 32, -2, 340, Left | Right, []Hazard{sandLeft(18, 240, 265)}},
			{4, 3, 159, 16, 0, 33, 29, 1, 80, Front | Left, nil},
			{5, 4, 419, 2, 34, 36, 31, 0, 20, Right, []Hazard{sandRight(17, 235, 265)}},
			{6, 4, 348, 18, 29, 30, 28, 3, 260, Front, nil},
			{7, 3, 186, 14, 0, 35, 31, -3, 170, Left | Right, nil},
			{8, 4, 395, 6, 35, 34, 30, 0, 345, Left, []Hazard{sandLeft(17, 245, 270)}},
			{9, 4, 387, 12, 35, 34, 30, -1, 30, Right, nil},
			{10, 5, 524, 9, 36, 36, 31, 2, 160, Left, []Hazard{outLeft(34)}},
			{11, 4, 410, 3, 34, 35, 31, 0, 185, Right | Front, nil},
			{12, 3, 172, 17, 0, 34, 30, 0, 270, Left | Right, nil},
			{13, 4, 361, 15, 32, 32, 29, -2, 200, Back, []Hazard{sandRight(16, 230, 255)}},
			{14, 4, 432, 1, 35, 37, 32, 1, 175, Left, nil},
			{15, 5, 515, 7, 36, 35, 31, 0, 160, Right, []Hazard{creek(408, 418)}},
			{16, 4, 354, 13, 30, 31, 28, 2, 90, Left | Right, nil},
			{17, 3, 198, 11, 0, 36, 32, 0, 210, Right, nil},
			{18, 4, 401, 5, 36, 37, 32, -1, 190, Left, []Hazard{outRight(33)}},
		},
	}
}

func downs() *Course {
	return &Course{
		Name: "Quennelmoor Downs", Tees: "white", Rating: 69.6, Slope: 124,
		Rough: Rough, Beyond: Trees, RoughYd: 15, WindMph: 9, WindFromDeg: 225,
		Holes: []Hole{
			{1, 4, 369, 12, 34, 32, 29, -8, 45, Left, nil},
			{2, 4, 397, 4, 33, 32, 28, 9, 130, Right, nil},
			{3, 3, 147, 18, 0, 29, 27, -12, 210, Left | Right, nil},
			{4, 4, 416, 2, 33, 33, 29, 7, 250, Left, []Hazard{outRight(33)}},
			{5, 5, 499, 10, 35, 33, 29, -9, 320, Right, []Hazard{sandRight(17, 250, 275)}},
			{6, 4, 358, 16, 29, 29, 27, 6, 15, Front, nil},
			{7, 4, 389, 8, 33, 31, 28, -5, 90, Left, nil},
			{8, 3, 181, 14, 0, 32, 29, 8, 175, Right, nil},
			{9, 5, 527, 6, 34, 33, 29, 4, 270, Left, []Hazard{waterLeft(26, 220, 300)}},
			{10, 4, 380, 9, 34, 31, 28, -6, 60, Right, nil},
			{11, 4, 406, 3, 32, 32, 28, 5, 150, Left | Right, nil},
			{12, 4, 343, 17, 27, 28, 26, -3, 225, Left, []Hazard{sandRight(14, 220, 250)}},
			{13, 3, 192, 11, 0, 33, 30, -4, 300, Left, nil},
			{14, 5, 510, 7, 35, 34, 29, 6, 350, Right, nil},
			{15, 4, 424, 1, 33, 34, 29, 0, 80, Left, []Hazard{outLeft(34)}},
			{16, 3, 165, 15, 0, 30, 28, 5, 165, Front | Right, []Hazard{creek(125, 138)}},
			{17, 4, 373, 13, 32, 30, 28, -7, 240, Right, nil},
			{18, 4, 409, 5, 34, 34, 30, 3, 20, Left, nil},
		},
	}
}
