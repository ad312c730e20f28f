package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"slices"

	"roundmill/ingest"
	"roundmill/ingest/store"
	"roundmill/metrics"
	"roundmill/plots"
)

// summaryName is the file of all figures.
const summaryName = "summary.json"

// describe writes run.json, summary.json and datapackage.json.
func (r *results) describe(s *settings, done *reading, figures *figures, missing []plots.Missing) error {
	type source struct {
		ingest.FileInfo
		ingest.Tally
		Rounds int      `json:"rounds"`
		ReadAs []string `json:"read_as"`
	}
	record := struct {
		Program  string        `json:"program"`
		Version  string        `json:"version"`
		Options  []string      `json:"options"`
		Baseline string        `json:"baseline"`
		Inputs   []source      `json:"inputs"`
		Total    ingest.Tally  `json:"total"`
		Rejects  int           `json:"rejects"`
		ReadAs   []string      `json:"read_as"`
		Seed     uint64        `json:"seed"`
		Files    []store.Entry `json:"files"` // all others of the folder
	}{
		Program: "roundmill", Version: version, Options: s.given, Baseline: s.transform.Baseline.Source,
		Total: done.total, Rejects: done.rejects, ReadAs: done.readAs(s), Seed: s.figures.Seed,
	}
	for i, file := range done.files {
		record.Inputs = append(record.Inputs, source{file, done.tallies[i], done.rounds[i], done.filesAs[i]})
	}
	gaps := make([]string, len(missing))
	for i, m := range missing {
		gaps[i] = m.Name + ": " + m.Reason
	}
	err := figures.writeSummary(metrics.Context{
		Version: version, Baseline: s.transform.Baseline.Name, BaselineSource: s.transform.Baseline.Source,
		Invented: s.demo, ChartsMissing: gaps,
	})
	if err != nil {
		return err
	}
	packaged := store.NewPackage("Golf shots, holes, rounds and figures written by roundmill "+version, slices.Concat(r.described(), figures.described))
	if err := r.writeJSON("datapackage.json", packaged); err != nil {
		return err
	}
	if record.Files, err = r.folder.Written(); err != nil {
		return err
	}
	return r.writeJSON(ingest.ResultMarker, record)
}

func (r *results) writeJSON(name string, content any) error {
	text, err := json.MarshalIndent(content, "", "  ")
	if err != nil {
		return err
	}
	return r.folder.WriteFile(name, append(text, '\n'))
}

// ownResults accepts a folder only if a run of this program left it, and all
// that is in it as it is. What systems put into folders that they show is not
// looked at.
func ownResults(folder string) error {
	text, err := os.ReadFile(filepath.Join(folder, ingest.ResultMarker))
	var marker struct {
		Program string
		Files   []store.Entry
	}
	if err != nil || json.Unmarshal(text, &marker) != nil || marker.Program != "roundmill" {
		return fmt.Errorf("%s: there is a folder that no run of roundmill left; name another with --out", folder)
	}
	entries, err := store.List(folder)
	for _, entry := range entries {
		switch {
		case slices.Contains(marker.Files, entry), entry.Name == ingest.ResultMarker:
		case slices.Contains([]string{".DS_Store", "Thumbs.db", "desktop.ini"}, path.Base(entry.Name)):
		default:
			return fmt.Errorf("%s: %s was not left there by a run of roundmill, or was changed since; move it (a mended rejects.csv beside your logs), or name another folder with --out", folder, entry.Name)
		}
	}
	return err
}
