package page

import (
	"roundmill/plots"
)

// document is a page as the templates see it.
type document struct {
	Title    string
	Invented bool
	Heading  string
	Opening  []string
	Back     string // where the page of all players is, from here
	First    *firstThings
	Squad    *squadTable
	Sections []section
	Glossary []term
	Version  string
}

// section is one part of the page: sentences, charts, tables, cautions.
type section struct {
	ID, Heading string
	Says        []string
	Figures     []figure
	Tables      []table
	Lists       []list
	Cautions    []string
}

func (s *section) say(sentences ...string) {
	for _, sentence := range sentences {
		if sentence != "" {
			s.Says = append(s.Says, sentence)
		}
	}
}

// add puts a table into the section unless it has no rows.
func (s *section) add(tables ...table) {
	for _, t := range tables {
		if len(t.Rows) > 0 {
			s.Tables = append(s.Tables, t)
		}
	}
}

// figure is a chart, or the sentence that says why there is none.
type figure struct {
	Name    string
	Picture *Picture
	Missing string
}

// Picture is a chart as drawn.
type Picture struct {
	*plots.Chart
	PNG []byte
}

// table is read row by row; the first cell of a row names it.
type table struct {
	ID      string
	Caption string
	Columns []column
	Rows    [][]string
	Note    string
}

// Dense says that the table has too many columns for an interval beside its
// figure: it goes below.
func (t table) Dense() bool { return len(t.Columns) >= 6 }

// column is a heading; columns of numbers stand at the right.
type column struct {
	Name string
	Text bool
}

// columns are a naming column and columns of numbers.
func columns(naming string, numbers ...string) []column {
	all := []column{{naming, true}}
	for _, number := range numbers {
		all = append(all, column{number, false})
	}
	return all
}

// list is a heading with items below it.
type list struct {
	Heading string
	Items   []string
}

type term struct{ Term, Meaning string }
