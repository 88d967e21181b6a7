package kits

import (
	"testing"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/diag"
)

func BenchmarkZLoad(b *testing.B) { s, _ := Demo(FirstDemo); for b.Loop() { if _, err := manifest.Load(s); err != nil { b.Fatal(err) } } }
func BenchmarkZParse(b *testing.B) { s, _ := Demo(FirstDemo); for b.Loop() { jsontree.Parse(s.Name, s.Data) } }
func BenchmarkZBind(b *testing.B) { s, _ := Demo(FirstDemo); tree, _ := jsontree.Parse(s.Name, s.Data); for b.Loop() { var d manifest.Document; var p diag.Problems; jsontree.Bind(tree, &d, &p) } }
func BenchmarkZAssess(b *testing.B) { s, _ := Demo(FirstDemo); m, _ := manifest.Load(s); for b.Loop() { Assess(m) } }
