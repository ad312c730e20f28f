package page

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"fmt"
	"html/template"
)

//go:embed style.css
var styleSheet string

//go:embed templates/*.html
var templateFiles embed.FS

var templates = template.Must(template.New("").Funcs(template.FuncMap{
	"pieces": pieces,
	"plain":  plain,
	"data": func(png []byte) template.URL {
		return template.URL("data:image/png;base64," + base64.StdEncoding.EncodeToString(png))
	},
	"style": func() template.CSS { return template.CSS(styleSheet) },
	// policy lets a page load nothing: its one style sheet by its hash, and
	// pictures that are in the page.
	"policy": func() string {
		hash := sha256.Sum256([]byte(styleSheet))
		return fmt.Sprintf("default-src 'none'; img-src data:; style-src 'sha256-%s'; form-action 'none'; base-uri 'none'",
			base64.StdEncoding.EncodeToString(hash[:]))
	},
}).ParseFS(templateFiles, "templates/*.html"))

// html is the document as a file.
func (d *document) html() ([]byte, error) {
	var out bytes.Buffer
	if err := templates.ExecuteTemplate(&out, "page.html", d); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
