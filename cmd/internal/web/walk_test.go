package web

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"hoistbook/cmd/internal/live"
	"hoistbook/render/walk"
)

// readings are what the crew of the browser reads, as it types them.
var readings = map[string]string{
	"preflight.wind-height": "2", "preflight.wind": "1.8", "preflight.gust": "2,6", "preflight.temperature": "11", "preflight.pressure": "1009 hPa",
	"preflight.anchor-mass": "41", "preflight.battery/BAT1": "12.5", "preflight.neck-scale": "3.95 kg", "preflight.line-out": "45", "preflight.lean": "12",
	"recovery.wind": "2", "recovery.pressure": "40 bar", "recovery.battery-volts/BAT1": "11.2",
}

func (p *phone) view() (v live.Shown) {
	p.Helper()
	if err := json.Unmarshal([]byte(p.eval(`JSON.stringify(view)`)), &v); err != nil {
		p.Fatal(err)
	}
	return v
}

// waitFor waits until a script is true on the page.
func (p *phone) waitFor(script string) {
	p.Helper()
	for range 150 {
		if p.eval(`String(!!(`+script+`))`) == "true" {
			return
		}
		time.Sleep(100 * time.Millisecond)
	}
	p.picture("failed")
	p.Fatalf("this never became true: %s; the page says %s", script, p.eval(`document.body.innerText`))
}

// recorded does something and waits until it is in the record and on the page.
func (p *phone) recorded(steps ...chromedp.Action[chromedp.Void]) {
	p.Helper()
	n := p.view().N
	p.do(steps...)
	p.waitFor(fmt.Sprintf("view.n > %d && queue.length === 0", n))
}

func css(selector string) chromedp.CSS { return chromedp.CSS(selector) }

func item(v live.Shown, key string) walk.Item {
	for _, phase := range v.Phases {
		for _, it := range phase.Items {
			if it.Key == key {
				return it
			}
		}
	}
	return walk.Item{}
}

func (p *phone) join(name string, lead bool) {
	p.Helper()
	p.do(chromedp.WaitVisible(css("#join")), chromedp.SendKeys(css("#name"), name))
	if lead {
		p.do(chromedp.Click(css("#lead")))
	}
	p.recorded(chromedp.Click(css("#join button")))
	p.do(chromedp.WaitVisible(css("#list")))
}

// through answers what is open up to an item, by what is on the screen.
func (p *phone) through(until string) {
	p.Helper()
	for range 200 {
		v := p.view()
		it := item(v, v.Next)
		if v.Next == "" || v.Next == until || it.Barred != "" {
			return
		}
		p.waitFor(fmt.Sprintf(`document.querySelector('.item.open')?.dataset.key === %q`, v.Next))
		p.answer(it)
	}
	p.Fatal("the list does not end")
}

func (p *phone) answer(it walk.Item) {
	p.Helper()
	switch {
	case it.Tally != nil:
		for i, part := range it.Tally {
			if part.Back == nil {
				p.recorded(chromedp.Click(css(fmt.Sprintf(`.item.open [data-f="i%d-t%d-all"]`, it.Number, i))))
			}
		}
	case it.Asks != nil:
		text, ok := readings[it.Key]
		if !ok {
			p.Fatalf("the crew has nothing to read for %s", it.Key)
		}
		p.recorded(chromedp.SendKeys(css(`.item.open [inputmode=decimal]`), text), chromedp.Click(css(`.item.open form button.main`)))
	default:
		p.recorded(chromedp.Click(css(`.item.open [data-f$="-y"]`)))
	}
}

// read opens an item and reads its instrument again.
func (p *phone) read(key, text string) {
	p.Helper()
	p.eval(fmt.Sprintf(`reach(%q); ''`, key))
	p.recorded(chromedp.SetValue(css(`.item.open [inputmode=decimal]`), text), chromedp.Click(css(`.item.open form button.main`)))
}

func (p *phone) is(want walk.Verdict) {
	p.Helper()
	if got := p.eval(`document.getElementById('word').textContent`); got != string(want) {
		p.picture("failed")
		p.Errorf("the page says %s (%s), want %s", got, p.view().Summary, want)
	}
}

// A whole walk in a real browser: the program is lost with a reading on its way, comes back, and nothing is missing.
func TestAWalkOnAPhone(t *testing.T) {
	s := newSite(t).start()
	p := s.phone(browser(t), t, 390, 844)
	p.do(chromedp.WaitVisible(css("#join")))
	p.accessible("joining")
	p.picture("01-join")
	p.join("Ada", true)
	p.accessible("at the start")
	p.picture("02-start")
	p.through("preflight.wind")
	p.picture("03-wind")

	s.stop()
	p.waitFor(`!document.getElementById('lost').hidden`)
	p.do(chromedp.SendKeys(css(`.item.open [inputmode=decimal]`), "1.8"), chromedp.Click(css(`.item.open form button.main`)))
	p.waitFor(`document.getElementById('lost').textContent.includes('Not recorded yet')`)
	p.accessible("without the program")
	p.picture("04-lost")
	_ = chromedp.Do(p.ctx, chromedp.Reload()) // somebody tries that, and the page is gone as well
	s.start()
	p.do(chromedp.Navigate(p.url))
	p.waitFor(`view && queue.length === 0 && view.phases.some((p) => p.items.some((i) => i.key === 'preflight.wind' && i.answer === '1.8 m/s'))`)
	if text := p.eval(`document.getElementById('lost').textContent`); text != "" {
		t.Errorf("connected again, the page still says %q", text)
	}

	p.through("preflight.neck-scale")
	p.picture("05-scale")
	p.read("preflight.neck-scale", "1.7 kg")
	p.is(walk.NoGo)
	p.accessible("NO-GO")
	p.eval(`scrollTo(0, 0); ''`)
	p.picture("06-no-go")
	p.read("preflight.neck-scale", "3.95 kg")
	p.through("preflight.launch")
	p.is(walk.GO)
	p.waitFor(`document.querySelector('.item.open')?.dataset.key === 'preflight.launch'`)
	p.picture("07-launch")
	p.through("")
	p.eval(`scrollTo(0, 0); ''`)
	p.picture("08-go")
	p.do(chromedp.Click(css(`[data-f="up"]`)))
	p.recorded(chromedp.Click(css(`[data-f="up-yes"]`)))
	p.is(walk.ToCheck)
	if text := p.eval(`document.getElementById('summary').textContent`); !strings.Contains(text, "aloft. It went up on GO, decided at ") || !strings.Contains(text, " by Ada.") {
		t.Errorf("just up, the page says %q", text)
	}
	p.through("")
	p.is(walk.GO)
	p.eval(`scrollTo(0, 0); ''`)
	p.picture("09-station")
	p.accessible("on station")
	p.read("preflight.wind", "9")
	p.is(walk.NoGo)
	p.picture("10-wind-rises")
	p.read("preflight.wind", "1.9")
	p.do(chromedp.Click(css(`[data-f="home"]`)))
	p.recorded(chromedp.Click(css(`[data-f="home-yes"]`)))
	p.through("") // as far as the list goes while the balloon is up
	p.accessible("bringing it down")
	p.eval(`scrollTo(0, 0); ''`)
	p.picture("11-bring-down")
	p.do(chromedp.Click(css(`[data-f="down"]`)))
	p.recorded(chromedp.Click(css(`[data-f="down-yes"]`)))
	p.through("recovery.pack/winch case")
	p.accessible("counting")
	p.picture("12-count")
	p.recorded(chromedp.Click(css(`.item.open [data-f$="-none"]`)))
	p.recorded(chromedp.Click(css(`.item.open [data-f$="-t0-all"]`)))
	p.through("")
	p.is(walk.Complete)
	p.eval(`for (const d of document.querySelectorAll('details')) d.open = true; ''`)
	p.accessible("at the end, everything open")
	p.picture("13-end")
	p.recorded(chromedp.ScrollIntoView(css(`[data-f="close-go"]`)), chromedp.Click(css(`[data-f="close-go"]`)))
	p.waitFor(`document.querySelectorAll('.cautions[open], .item.open').length === 0`)
	p.accessible("closed")
	p.eval(`scrollTo(0, 0); ''`)
	p.picture("14-closed")
	s.stop()

	data, err := os.ReadFile(s.record)
	if err != nil {
		t.Fatal(err)
	}
	r, err := walk.ReadRecord(s.record, data)
	if err != nil || !r.Closed() {
		t.Fatalf("the record: %v", err)
	}
	if last := r.Entries[len(r.Entries)-1]; last.Verdict != walk.Complete {
		t.Errorf("the record ends with %s", last.Verdict)
	}
	winds := 0
	for _, e := range r.Entries {
		if e.Item == "preflight.wind" && e.Text == "1.8 m/s" {
			winds++
		}
	}
	if winds != 1 {
		t.Errorf("the reading that was on its way stands %d times in the record", winds)
	}
}

// accessible holds the page against the rules of WCAG 2.2 A and AA that a program can check, and against the size of a gloved
// finger.
func (p *phone) accessible(when string) {
	p.Helper()
	path := filepath.Join("..", "..", "..", ".ci", "axe", "node_modules", "axe-core", "axe.min.js")
	rules, err := os.ReadFile(path)
	if err != nil {
		if os.Getenv("CI") != "" {
			p.Fatalf("the page must be held against the rules: %v (npm ci --prefix .ci/axe)", err)
		}
		p.Logf("%s: not held against the rules, as they are not installed (npm ci --prefix .ci/axe)", when)
		return
	}
	if p.eval(`typeof axe`) == "undefined" {
		p.eval(string(rules) + `; ''`)
	}
	// what lies under the bar at the top cannot be judged there
	at := p.eval(`(() => { const y = String(scrollY); scrollTo(0, 0); return y; })()`)
	defer p.eval(`scrollTo(0, ` + at + `); ''`)
	found := p.eval(`axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'], resultTypes: ['violations', 'incomplete']}).then((r) =>
		[...r.violations.map((v) => v.id + ': ' + v.help + ': ' + v.nodes.map((n) => n.html).slice(0, 3).join(' ')),
		 ...r.incomplete.map((v) => ({id: v.id, nodes: v.nodes.filter((n) => !['shortTextContent', 'nonBmp'].includes(n.any[0]?.data?.messageKey))})).filter((v) => v.nodes.length > 0).map((v) => 'cannot be decided: ' + v.id + ': ' + v.nodes.map((n) => n.html).slice(0, 3).join(' '))].join('\n'))`)
	if found != "" {
		p.Errorf("%s:\n%s", when, found)
	}
	small := p.eval(`[...document.querySelectorAll('button, input, select, summary')].filter((e) => e.checkVisibility({visibilityProperty: true}) && e.type !== 'checkbox').map((e) => [e, e.getBoundingClientRect()])
		.filter(([e, r]) => r.height < 55.5 || r.width < 55.5).map(([e, r]) => e.outerHTML.slice(0, 80) + ' ' + r.width + ' x ' + r.height).join('\n')`)
	if small != "" {
		p.Errorf("%s: too small for a glove:\n%s", when, small)
	}
	if wide := p.eval(`String(document.documentElement.scrollWidth - innerWidth)`); strings.HasPrefix(wide, "-") == false && wide != "0" {
		p.Errorf("%s: the page is %s px wider than the screen", when, wide)
	}
}
