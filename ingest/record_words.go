package ingest

import (
	"bytes"
	"strings"
)

// canonical says how the spelling of a text field is brought to the stored word.
func canonical(f field, lies Lies) func(string) (string, bool) {
	definition := &definitions[f]
	switch {
	case f == finishLie:
		return func(text string) (string, bool) {
			return text, lies.FinishCategory(text) != NoCategory
		}
	case f == lie:
		return func(text string) (string, bool) { return text, lies.Category(text) != NoCategory }
	case definition.kind == clubName:
		return func(text string) (string, bool) { return clubSpelling(text), true }
	case definition.kind == closedSet:
		return func(text string) (string, bool) {
			word, known := definition.words[plainForm(text)]
			return word, known
		}
	}
	return func(text string) (string, bool) { return text, true }
}

func (p *recordParser) setText(f field, text []byte) {
	code := p.codeOf(f, text)
	if code == badWord {
		known := definitions[f].words.meanings()
		if definitions[f].kind == lieWord {
			known = []string{"tee", "fairway", "rough", "bunker", "recovery", "green"}
		}
		p.refuse(f, text, "expected a known word, such as "+strings.Join(known, ", "), p.wordHint(f, text))
		return
	}
	p.rows.setText(f, p.row, code)
}

// codeOf finds the code of a spelling: among the short words, as that of the
// record before, or in the index of the column.
func (p *recordParser) codeOf(f field, text []byte) int32 {
	if len(text) > longestShortWord {
		if !bytes.Equal(text, p.lastText[f]) {
			p.lastText[f], p.lastCode[f] = text, p.rows.texts[f].code(text, p.canonical[f])
		}
		return p.lastCode[f]
	}
	letters, place := shortWordOf(text)
	word := &p.short[f][place]
	if word.letters != letters || int(word.length) != len(text) {
		*word = shortWord{letters, uint8(len(text)), p.rows.texts[f].code(text, p.canonical[f])}
	}
	return word.code
}

// wordHint helps with a word that no table knows.
func (p *recordParser) wordHint(f field, text []byte) string {
	spelling := string(text)
	hint, met := p.hints[f][spelling]
	if met {
		return hint
	}
	known := definitions[f].words.meanings()
	if definitions[f].kind == lieWord {
		known = p.lies.words()
		hint = "a word of your own can be added with --lies (`word = category`)"
	}
	if guess := didYouMean(plainForm(spelling), known); guess != "" {
		hint = guess
	}
	if p.hints[f] == nil {
		p.hints[f] = map[string]string{}
	}
	p.hints[f][spelling] = hint
	return hint
}
