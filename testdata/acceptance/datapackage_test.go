package acceptance

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/dlclark/regexp2"
	"github.com/santhosh-tekuri/jsonschema/v6"
)

// dataPackage is what a Frictionless Data Package (version 2) says of its tables.
type dataPackage struct {
	Resources []struct {
		Name        string
		Description string
		Path        paths
		Schema      struct {
			Fields []struct{ Name, Type, Description, Unit string }
		}
	}
}

// paths is one path or several.
type paths []string

func (p *paths) UnmarshalJSON(text []byte) error {
	var one string
	if json.Unmarshal(text, &one) == nil {
		*p = paths{one}
		return nil
	}
	return json.Unmarshal(text, (*[]string)(p))
}

// packageTypes are the types of a Data Package field and of the SQL that it stands for.
var packageTypes = map[string]string{
	"VARCHAR": "string", "DATE": "date", "BOOLEAN": "boolean", "INTEGER": "integer", "BIGINT": "integer", "DOUBLE": "number",
}

func TestTheDataPackageListsEveryTableAndColumnTruly(t *testing.T) {
	for _, s := range []season{demo, generated(t, 3, 60, 7)} {
		t.Run(s.name, func(t *testing.T) {
			db, out := openDatabase(t), s.run(t)
			var listed []string
			for _, resource := range readDataPackage(t, out).Resources {
				if resource.Description == "" {
					t.Errorf("%s is not described", resource.Name)
				}
				for _, path := range resource.Path {
					path = filepath.Join(out, filepath.FromSlash(path))
					listed = append(listed, path)
					rows := db.rows("DESCRIBE FROM read_parquet('%s', hive_partitioning = false)", path)
					if len(rows) != len(resource.Schema.Fields) {
						t.Errorf("%s: %d columns, %d described", path, len(rows), len(resource.Schema.Fields))
						continue
					}
					for i, field := range resource.Schema.Fields {
						if name, kind := rows[i][0], rows[i][1]; field.Name != name || field.Type != packageTypes[kind] {
							t.Errorf("%s: column %s is %s, described as %s, %s", path, name, kind, field.Name, field.Type)
						}
						if field.Description == "" {
							t.Errorf("%s: %s is not described", resource.Name, field.Name)
						}
						for _, unit := range []string{"yd", "ft", "mph"} {
							rate := strings.Contains(field.Name, "_per_") // in a unit of its own
							if strings.HasSuffix(field.Name, "_"+unit) && !rate && field.Unit != unit {
								t.Errorf("%s: %s is in %q", resource.Name, field.Name, field.Unit)
							}
						}
					}
				}
			}
			slices.Sort(listed)
			written := parquetFiles(t, out)
			slices.Sort(written)
			if !slices.Equal(listed, written) {
				t.Errorf("listed\n\t%s\nwritten\n\t%s", strings.Join(listed, "\n\t"), strings.Join(written, "\n\t"))
			}
		})
	}
}

// The schema is that of the Frictionless Data Package, version 2.0; it lies among the outside suites.
func TestTheDataPackageIsValid(t *testing.T) {
	suites := os.Getenv("ROUNDMILL_SUITES")
	if suites == "" {
		t.Skip("NOT CHECKED: set ROUNDMILL_SUITES to the folder that holds frictionless/datapackage-2.0.schema.json")
	}
	path := filepath.Join(suites, "frictionless", "datapackage-2.0.schema.json")
	if _, err := os.Stat(path); err != nil {
		t.Skipf("NOT CHECKED: %v", err)
	}
	compiler := jsonschema.NewCompiler()
	compiler.UseRegexpEngine(lookingAhead)
	schema, err := compiler.Compile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []season{demo, generated(t, 3, 60, 7)} {
		described, err := os.Open(filepath.Join(s.run(t), "datapackage.json"))
		if err != nil {
			t.Fatal(err)
		}
		document, err := jsonschema.UnmarshalJSON(described)
		described.Close()
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(document); err != nil {
			t.Errorf("%s: %v", s.name, err)
		}
		document.(map[string]any)["resources"] = []any{}
		if schema.Validate(document) == nil {
			t.Error("the schema takes a package without resources: it checks nothing")
		}
	}
}

// lookingAhead compiles the patterns of the schema, which look ahead as Go's own engine does not.
func lookingAhead(pattern string) (jsonschema.Regexp, error) {
	compiled, err := regexp2.Compile(pattern, regexp2.ECMAScript)
	return ecmaPattern{compiled}, err
}

type ecmaPattern struct{ *regexp2.Regexp }

func (p ecmaPattern) MatchString(text string) bool {
	matched, err := p.Regexp.MatchString(text)
	return err == nil && matched
}

func readDataPackage(t *testing.T, out string) (described dataPackage) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(out, "datapackage.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &described); err != nil {
		t.Fatal(fmt.Errorf("datapackage.json: %w", err))
	}
	return described
}
