package acceptance

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
)

// needsWine skips a test, loudly, without a Wine that programs of Go run under: 10.0 is one, and 8.0 lacks calls that they
// make. In CI too, which may not be able to have one.
func needsWine(t *testing.T) {
	t.Helper()
	const oldest = 10
	var version int
	said, err := exec.Command("wine", "--version").Output()
	if fmt.Sscanf(string(said), "wine-%d", &version); version < oldest {
		t.Skipf("SKIPPED: no wine-%d or newer, which get-wine brings (%q, %v), so NOTHING IS KNOWN about the program built for Windows", oldest, said, err)
	}
	t.Setenv("WINEDEBUG", "-all")
}

// The program built for Windows leaves the same files under Wine as this one does here, byte for byte, in a new folder and
// again in the place of the first results, and nothing beside them.
func TestTheWindowsProgramGivesTheSameBytes(t *testing.T) {
	needsWine(t)
	windows := filepath.Join(scratch, "roundmill.exe")
	// -trimpath as the cross builds of CI, whose packages it takes over.
	build := goTool("build", "-trimpath", "-o", windows, ".")
	build.Env = append(build.Env, "GOOS=windows")
	if said, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	for _, s := range []season{
		{name: "the built-in season with its charts", log: demo.log, args: []string{"--demo"}, sourceFile: demo.sourceFile},
		{name: "records that are refused", log: "logs/refused.csv"},
		generated(t, 3, 60, 7),
	} {
		t.Run(s.name, func(t *testing.T) {
			here, parent := s.run(t), t.TempDir()
			there := filepath.Join(parent, "out")
			for _, how := range []string{"under Wine", "under Wine again"} {
				command(t, filepath.Dir(s.log), "wine", slices.Concat([]string{windows}, s.commandLine("Z:"+there))...)
				sameFolder(t, here, there, []string{how})
			}
			if beside, err := os.ReadDir(parent); err != nil || len(beside) != 1 {
				t.Errorf("beside the results there is %v (%v)", beside, err)
			}
		})
	}
}

// The tests of what Windows does otherwise, built for it, pass under Wine: those of reading and of files and folders, runs
// that fail and are killed, and the cases of the command.
func TestTheTestsOfTheProgramPassUnderWine(t *testing.T) {
	needsWine(t)
	for _, args := range [][]string{{"./ingest/..."}, {"-run", "Command|Bug|Panic|Killed|Process|Hostile", "."}} {
		test := goTool(slices.Concat([]string{"test", "-trimpath", "-short", "-count=1", "-exec", "wine"}, args)...)
		test.Env = append(test.Env, "GOOS=windows", "CI=", "ROUNDMILL_SUITES=") // the suites are no matter of the system
		said, err := test.CombinedOutput()
		t.Logf("%s", said)
		if err != nil {
			t.Error(err)
		}
		if bytes.Contains(said, []byte("[no tests to run]")) {
			t.Errorf("%q names no test", args)
		}
	}
}
