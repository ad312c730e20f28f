package golfer

import (
	"bufio"
	"io"
	"iter"
	"math"
	"strconv"
	"strings"
)

// Header is the first line of a log. Without a unit, to_hole and left are yards, and feet where
// the ball lies on the green.
const Header = "date,player,course,tees,course_rating,slope_rating,round,hole,par,hole_length_yd,stroke_index," +
	"shot,lie,to_hole,club,left,finish_lie,long_short_yd,left_right_yd,aim_long_short_yd,aim_left_right_yd," +
	"pin_side,pin_depth,headwind_mph,crosswind_mph,green_depth_yd,green_width_yd,elevation_yd,putt_slope,putt_break," +
	"penalty,penalty_kind,intent,fault,holed,note\n"

// WriteCSV writes a log, header first, and returns how many shots are in it.
func WriteCSV(w io.Writer, shots iter.Seq[Shot]) (int, error) {
	out := bufio.NewWriterSize(w, 1<<16)
	if _, err := out.WriteString(Header); err != nil {
		return 0, err
	}
	var (
		row, roundPart, holePart []byte
		round                    *Round
		hole                     *Hole
		rows                     int
	)
	for shot := range shots {
		if shot.Round != round {
			round, hole = shot.Round, nil
			roundPart = appendRound(roundPart[:0], round)
		}
		if shot.Hole != hole {
			hole = shot.Hole
			holePart = appendHole(append(holePart[:0], roundPart...), hole)
		}
		row = appendShot(append(row[:0], holePart...), &shot)
		if _, err := out.Write(row); err != nil {
			return rows, err
		}
		rows++
	}
	return rows, out.Flush()
}

func appendRound(row []byte, round *Round) []byte {
	course := round.Course
	row = append(round.Date.AppendFormat(row, "2006-01-02"), ',')
	row = append(appendText(row, round.Player), ',')
	row = append(appendText(row, course.Name), ',')
	row = append(appendText(row, course.Tees), ',')
	row = append(appendTenths(row, course.Rating), ',')
	row = append(strconv.AppendInt(row, int64(course.Slope), 10), ',')
	return append(strconv.AppendInt(row, int64(round.Number), 10), ',')
}

func appendHole(row []byte, hole *Hole) []byte {
	row = append(strconv.AppendInt(row, int64(hole.Number), 10), ',')
	row = append(strconv.AppendInt(row, int64(hole.Par), 10), ',')
	row = append(appendTenths(row, hole.LengthYd), ',')
	return append(strconv.AppendInt(row, int64(hole.StrokeIndex), 10), ',')
}

func appendShot(row []byte, s *Shot) []byte {
	row = append(strconv.AppendInt(row, int64(s.Number), 10), ',')
	row = append(append(row, s.Lie.String()...), ',')
	row = append(appendDistance(row, s.ToHoleYd, s.Lie), ',')
	row = append(appendText(row, s.Club), ',')
	row = append(appendDistance(row, s.LeftYd, s.Finish), ',')
	row = append(append(row, s.Finish.String()...), ',')
	if s.Stroke == Putt {
		row = append(row, ",,,,"...)
	} else {
		for _, yd := range [...]float64{s.Miss.LongYd, s.Miss.RightYd, s.Aim.LongYd, s.Aim.RightYd} {
			row = append(appendTenths(row, yd), ',')
		}
	}
	atGreen := s.Stroke == ToGreen || s.Stroke == ShortGame
	if atGreen {
		row = append(append(row, s.Pin.Side...), ',')
		row = append(append(row, s.Pin.Depth...), ',')
	} else {
		row = append(row, ",,"...)
	}
	full := s.Stroke == FromTee || s.Stroke == ToGreen || s.Stroke == Advance
	if full {
		row = append(appendTenths(row, s.Wind.HeadMph), ',')
		row = append(appendTenths(row, s.Wind.CrossMph), ',')
	} else {
		row = append(row, ",,"...)
	}
	if atGreen {
		row = append(appendTenths(row, s.Hole.GreenDepthYd), ',')
		row = append(appendTenths(row, s.Hole.GreenWidthYd), ',')
	} else {
		row = append(row, ",,"...)
	}
	if full {
		row = appendTenths(row, s.RiseYd)
	}
	row = append(append(append(row, ','), s.Putting.Slope...), ',')
	row = append(append(row, s.Putting.Break...), ',')
	if s.Penalty > 0 {
		row = strconv.AppendInt(row, int64(s.Penalty), 10)
	}
	row = append(append(append(row, ','), s.PenaltyKind...), ',')
	row = append(append(row, s.Intent...), ',')
	row = append(append(row, s.Fault...), ',')
	switch {
	case s.Holed:
		row = append(row, "yes"...)
	case s.PickedUp:
		row = append(row, "no"...)
	}
	return append(appendText(append(row, ','), s.Note), '\n')
}

// appendDistance writes yards, or feet for a ball on the green.
func appendDistance(row []byte, yd float64, lie Lie) []byte {
	if lie == Green {
		return appendTenths(row, 3*yd)
	}
	return appendTenths(row, yd)
}

// appendTenths writes a number to a tenth, without a tenth when that is nought.
func appendTenths(row []byte, x float64) []byte {
	tenths := int64(math.Round(10 * x))
	if tenths < 0 {
		row, tenths = append(row, '-'), -tenths
	}
	row = strconv.AppendInt(row, tenths/10, 10)
	if tenths%10 != 0 {
		row = append(row, '.', byte('0'+tenths%10))
	}
	return row
}

// appendText writes a field, in quotes where it needs them.
func appendText(row []byte, text string) []byte {
	if !strings.ContainsAny(text, ",\"\r\n") {
		return append(row, text...)
	}
	return append(append(append(row, '"'), strings.ReplaceAll(text, `"`, `""`)...), '"')
}
