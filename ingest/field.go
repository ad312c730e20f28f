package ingest

import "math"

// field names one thing that a record of the log can say. The text fields come
// first, then the ones kept as numbers; the order is that of the raw schema.
type field uint8

const (
	player field = iota
	course
	tees
	round
	lie
	club
	finishLie
	pinSide
	pinDepth
	puttSlope
	puttBreak
	penaltyKind
	intent
	fault
	note
	firstNumber
)

const (
	date field = iota + firstNumber
	courseRating
	slopeRating
	hole
	par
	holeLength
	strokeIndex
	shot
	toHole
	puttLength
	left
	longShort
	leftRight
	aimLongShort
	aimLeftRight
	headwind
	crosswind
	greenDepth
	greenWidth
	elevation
	penalty
	holed
	holeScore
	holePutts
	fairwayHit
	greenHit
	latitude
	longitude
	holeLatitude
	holeLongitude
	x
	y
	holeX
	holeY
	fieldCount
	noField = fieldCount
)

const (
	textCount   = int(firstNumber)
	numberCount = int(fieldCount - firstNumber)
)

// kind says how the text of a field is read.
type kind uint8

const (
	freeText  kind = iota
	closedSet      // one of a few words
	lieWord
	clubName
	calendarDate
	wholeNumber
	plainNumber
	distance // stored in yards
	speed    // stored in miles per hour
	yesNo
)

// definition is one line of the table of fields.
type definition struct {
	name     string   // as written in a header, without unit
	column   string   // name in the raw schema, with unit
	synonyms []string // plain trade terms, in normal form
	kind     kind
	min, max float64 // of the stored value
	words    vocabulary
}

// The table of fields: the only place that spells their names.
var definitions = [fieldCount]definition{
	player:      {name: "player", synonyms: []string{"golfer", "playername"}},
	course:      {name: "course", synonyms: []string{"coursename"}},
	tees:        {name: "tees", synonyms: []string{"teeset", "teesplayed"}},
	round:       {name: "round", synonyms: []string{"roundid", "roundnumber", "roundno"}},
	lie:         {name: "lie", kind: lieWord, synonyms: []string{"startlie", "liebefore"}},
	club:        {name: "club", kind: clubName, synonyms: []string{"clubused"}},
	finishLie:   {name: "finish_lie", kind: lieWord, synonyms: []string{"endlie", "lieafter"}},
	pinSide:     {name: "pin_side", kind: closedSet, words: sides, synonyms: []string{"holeside"}},
	pinDepth:    {name: "pin_depth", kind: closedSet, words: depths, synonyms: []string{"holedepth"}},
	puttSlope:   {name: "putt_slope", kind: closedSet, words: puttSlopes},
	puttBreak:   {name: "putt_break", kind: closedSet, words: puttBreaks},
	penaltyKind: {name: "penalty_kind", kind: closedSet, words: penaltyKinds, synonyms: []string{"penaltytype"}},
	intent:      {name: "intent", kind: closedSet, words: intents},
	fault:       {name: "fault", kind: closedSet, words: faults},
	note:        {name: "note", synonyms: []string{"notes", "comment", "comments", "remark", "remarks"}},

	date:         {name: "date", kind: calendarDate, synonyms: []string{"dateplayed", "day", "played", "playedon"}},
	courseRating: {name: "course_rating", kind: plainNumber, min: 20, max: 90, synonyms: []string{"rating"}},
	slopeRating:  {name: "slope_rating", kind: plainNumber, min: 55, max: 155, synonyms: []string{"slope"}},
	hole:         {name: "hole", kind: wholeNumber, min: 1, max: 36, synonyms: []string{"holenumber", "holeno"}},
	par:          {name: "par", kind: wholeNumber, min: 3, max: 6, synonyms: []string{"holepar"}},
	holeLength:   {name: "hole_length", column: "hole_length_yd", kind: distance, min: 30, max: 900, synonyms: []string{"length", "lengthofhole", "holeyards"}},
	strokeIndex:  {name: "stroke_index", kind: wholeNumber, min: 1, max: 18, synonyms: []string{"si", "holeindex"}},
	shot:         {name: "shot", kind: wholeNumber, min: 1, max: 99, synonyms: []string{"shotnumber", "shotno", "stroke", "strokenumber", "strokeno"}},
	toHole:       {name: "to_hole", column: "to_hole_yd", kind: distance, min: 0, max: 700, synonyms: []string{"distancetohole", "distancetopin", "yardstohole", "yardstopin", "topin"}},
	puttLength:   {name: "putt_length", kind: distance, min: 0, max: 200 / feetPerYard, synonyms: []string{"puttdistance", "lengthofputt"}},
	left:         {name: "left", column: "left_yd", kind: distance, min: 0, max: 700, synonyms: []string{"distanceleft", "distanceafter", "remaining"}},
	longShort:    {name: "long_short", column: "long_short_yd", kind: distance, min: -700, max: 700},
	leftRight:    {name: "left_right", column: "left_right_yd", kind: distance, min: -700, max: 700},
	aimLongShort: {name: "aim_long_short", column: "aim_long_short_yd", kind: distance, min: -700, max: 700},
	aimLeftRight: {name: "aim_left_right", column: "aim_left_right_yd", kind: distance, min: -700, max: 700},
	headwind:     {name: "headwind", column: "headwind_mph", kind: speed, min: -100, max: 100},
	crosswind:    {name: "crosswind", column: "crosswind_mph", kind: speed, min: -100, max: 100},
	greenDepth:   {name: "green_depth", column: "green_depth_yd", kind: distance, min: 1, max: 150},
	greenWidth:   {name: "green_width", column: "green_width_yd", kind: distance, min: 1, max: 150},
	elevation:    {name: "elevation", column: "elevation_yd", kind: distance, min: -200, max: 200, synonyms: []string{"climb"}},
	penalty:      {name: "penalty", kind: wholeNumber, min: 0, max: 2, synonyms: []string{"penalties", "penaltystrokes"}},
	holed:        {name: "holed", kind: yesNo, min: 0, max: 1, synonyms: []string{"inhole", "inthehole", "holedout"}},

	holeScore:  {name: "score", kind: wholeNumber, min: 1, max: 30},
	holePutts:  {name: "putts", kind: wholeNumber, min: 0, max: 15},
	fairwayHit: {name: "fairway", kind: yesNo, min: 0, max: 1},
	greenHit:   {name: "green", kind: yesNo, min: 0, max: 1},

	latitude:      {name: "lat", column: "lat_deg", kind: plainNumber, min: -90, max: 90, synonyms: []string{"latitude"}},
	longitude:     {name: "lon", column: "lon_deg", kind: plainNumber, min: -180, max: 180, synonyms: []string{"longitude", "lng"}},
	holeLatitude:  {name: "hole_lat", column: "hole_lat_deg", kind: plainNumber, min: -90, max: 90, synonyms: []string{"holelatitude"}},
	holeLongitude: {name: "hole_lon", column: "hole_lon_deg", kind: plainNumber, min: -180, max: 180, synonyms: []string{"holelongitude", "holelng"}},
	x:             {name: "x", column: "x_yd", kind: distance, min: -1e5, max: 1e5},
	y:             {name: "y", column: "y_yd", kind: distance, min: -1e5, max: 1e5},
	holeX:         {name: "hole_x", column: "hole_x_yd", kind: distance, min: -1e5, max: 1e5},
	holeY:         {name: "hole_y", column: "hole_y_yd", kind: distance, min: -1e5, max: 1e5},
}

func (f field) String() string {
	if f >= fieldCount {
		return ""
	}
	return definitions[f].name
}

func (f field) isText() bool { return f < firstNumber }

// isMeasure tells fields that are written as a number.
func (f field) isMeasure() bool {
	return f < fieldCount && definitions[f].kind >= wholeNumber && definitions[f].kind <= speed
}

// number is the slot of a numeric field in rows.numbers.
func (f field) number() int { return int(f - firstNumber) }

// missing stands for an absent number between the parser and the batch, where
// it becomes a null.
var missing = math.NaN()

func isMissing(v float64) bool { return v != v }
