module hoistbook

go 1.26.8

require (
	github.com/go-fonts/dejavu v0.3.2 // indirect
	github.com/go-json-experiment/json v1.27.2 // indirect
	github.com/go-pdf/fpdf v0.9.0 // indirect
	github.com/govalues/decimal v0.1.36 // indirect
	github.com/govalues/money v0.2.4 // indirect
	golang.org/x/image v0.47.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
