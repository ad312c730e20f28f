// Package demo holds the season that is built into the program: one invented amateur on four
// invented courses, written by the generator in generate/ from the skill parameters in golfer/.
package demo

import _ "embed" // for CSV

// Name says what the season is, where a file name would stand.
const Name = "demo season (invented)"

// CSV is the shot log of the season.
//
//go:embed season.csv
var CSV []byte
