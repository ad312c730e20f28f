package page

import (
	"testing"

	"roundmill/metrics"
	"roundmill/plots"
)

func TestTeeWords(t *testing.T) {
	club := metrics.TeeClub{Club: "driver", N: 615, MedianYd: 261.5, MedianLoYd: 259.8, MedianHiYd: 263, FairwayShare: 0.57, NSide: 615,
		LeftShare: 0.3, LeftLo: 0.27, LeftHi: 0.33, RightShare: 0.2, RightLo: 0.18, RightHi: 0.23}
	said(t, "left", teeClubWords(club, plots.Yards), "The driver, 615 tee shots, goes 262 yards at the median and hits 57 % of fairways. Misses of more than 15 yards go left (30 %) more often than right (20 %).")
	said(t, "metres", teeClubWords(club, plots.Metres), "The driver, 615 tee shots, goes 239 metres at the median and hits 57 % of fairways. Misses of more than 14 metres go left (30 %) more often than right (20 %).")
	club.RightHi = 0.28
	said(t, "both", sideWords(club, plots.Yards), " Misses of more than 15 yards go left (30 %) and right (20 %); the shots do not tell which is the more frequent.")
	club.LeftLo, club.LeftHi = unknown, unknown
	said(t, "no intervals", sideWords(club, plots.Yards), "")
	club.NSide = 9
	said(t, "no sides", sideWords(club, plots.Yards), "")
	club.N = 9
	said(t, "few", teeClubWords(club, plots.Yards), "")
	difference := func(n int64, score, lo, hi float64) metrics.TeeClubDifference {
		return metrics.TeeClubDifference{LongerClub: "driver", ShorterClub: "3 wood", NLonger: 99, NShorter: n, Score: score, ScoreLo: lo, ScoreHi: hi}
	}
	const hole = "; part of that may be the holes on which each was chosen."
	said(t, "longer is better", teeDifferenceWords(difference(30, 0.3, 0.1, 0.5)), "On holes of like length the score is 0.3 strokes (0.1 to 0.5) lower with the driver than with the 3 wood"+hole)
	said(t, "shorter is better", teeDifferenceWords(difference(30, -0.3, -0.5, -0.1)), "On holes of like length the score is 0.3 strokes (0.1 to 0.5) lower with the 3 wood than with the driver"+hole)
	said(t, "open", teeDifferenceWords(difference(30, 0.1, -0.1, 0.3)), "Between driver and 3 wood on holes of like length no difference in score is shown: +0.1 strokes a hole with the 3 wood, with a 90 % interval of −0.1 to +0.3.")
	said(t, "few", teeDifferenceWords(difference(9, 0.3, 0.1, 0.5)), "")
}
