package web

import (
	"bytes"
	_ "embed"
	"net/http"
	"time"
)

var (
	//go:embed page/index.html
	indexHTML []byte
	//go:embed page/walk.css
	walkCSS []byte
	//go:embed page/walk.js
	walkJS []byte
	//go:embed page/icon.svg
	iconSVG []byte
)

// files are all that there is: a request names one of them or nothing.
var files = map[string]file{
	"/{$}":      {"text/html; charset=utf-8", indexHTML},
	"/walk.css": {"text/css; charset=utf-8", walkCSS},
	"/walk.js":  {"text/javascript; charset=utf-8", walkJS},
	"/icon.svg": {"image/svg+xml", iconSVG},
}

type file struct {
	kind string
	data []byte
}

func (f file) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", f.kind)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(f.data))
}
