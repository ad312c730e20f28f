package store

import "github.com/apache/arrow-go/v18/arrow"

// A Package is a Data Package descriptor (Frictionless Data, Data Package 2.0).
type Package struct {
	Schema    string     `json:"$schema"`
	Name      string     `json:"name"`
	Title     string     `json:"title"`
	Resources []Resource `json:"resources"`
}

// A Resource describes one table, in one file or in several parts.
type Resource struct {
	Name        string      `json:"name"`
	Description string      `json:"description"`
	Path        any         `json:"path"` // a string, or several
	Format      string      `json:"format"`
	MediaType   string      `json:"mediatype"`
	TableSchema TableSchema `json:"schema"`
}

// A TableSchema lists the columns of a table.
type TableSchema struct {
	Fields []Field `json:"fields"`
}

// A Field describes a column.
type Field struct {
	Name        string `json:"name"`
	Type        string `json:"type"`
	Description string `json:"description,omitempty"`
	Unit        string `json:"unit,omitempty"`
}

// NewPackage describes a folder of tables.
func NewPackage(title string, resources []Resource) Package {
	return Package{
		Schema: "https://datapackage.org/profiles/2.0/datapackage.json",
		Name:   "roundmill-results", Title: title, Resources: resources,
	}
}

// Describe describes a table by its schema, whose fields carry "unit" and
// "about" as metadata.
func Describe(name, about string, schema *arrow.Schema, paths ...string) Resource {
	r := Resource{Name: name, Description: about, Path: paths, Format: "parquet", MediaType: "application/vnd.apache.parquet"}
	if len(paths) == 1 {
		r.Path = paths[0]
	}
	for _, field := range schema.Fields() {
		unit, _ := field.Metadata.GetValue("unit")
		description, _ := field.Metadata.GetValue("about")
		r.TableSchema.Fields = append(r.TableSchema.Fields, Field{
			Name: field.Name, Type: fieldType(field.Type), Description: description, Unit: unit,
		})
	}
	return r
}

func fieldType(t arrow.DataType) string {
	switch t.ID() {
	case arrow.FLOAT64:
		return "number"
	case arrow.INT32, arrow.INT64:
		return "integer"
	case arrow.BOOL:
		return "boolean"
	case arrow.DATE32:
		return "date"
	}
	return "string"
}
