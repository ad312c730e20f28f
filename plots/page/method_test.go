package page

import (
	"testing"

	"roundmill/ingest"
	"roundmill/plots"
)

// A note starts with the name of its file, which keeps its case.
func TestNotesAreAsTheyWereGiven(t *testing.T) {
	r := &Report{Reading: plots.Reading{ReadAs: []string{"may.csv:3: not used: mood"}}}
	if lists := r.filesRead().Lists; len(lists) != 1 || lists[0].Items[0] != "may.csv:3: not used: mood." {
		t.Errorf("notes: %v", lists)
	}
}

func TestWordsOfTheFilesRead(t *testing.T) {
	reading := func(files int, records, kept, refused int64) plots.Reading {
		r := plots.Reading{Files: make([]ingest.FileInfo, files)}
		r.Total.Records, r.Total.Kept, r.Total.Refused = records, kept, refused
		return r
	}
	said(t, "all kept", readWords(reading(1, 3389, 3389, 0)), "3,389 records were read from 1 file, and 3,389 kept; none was refused.")
	said(t, "one refused", readWords(reading(2, 8, 7, 1)), "8 records were read from 2 files, and 7 kept; 1 was refused: rejects.csv says which, and what to do.")
	withTotal := reading(1, 9, 7, 1)
	withTotal.Total.Skipped = 1
	said(t, "a total line", readWords(withTotal), "9 records were read from 1 file, and 7 kept; 1 was no shot, such as a total, and was skipped; 1 was refused: rejects.csv says which, and what to do.")
	said(t, "one record", readWords(reading(1, 1, 1, 0)), "1 record was read from 1 file, and 1 kept; none was refused.")
}
