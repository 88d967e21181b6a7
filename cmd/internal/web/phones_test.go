package web

import (
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"hoistbook/render/walk"
)

// tab moves on with the keyboard until the focus is where a selector says, and fails when it never is.
func (p *phone) tab(selector string) {
	p.Helper()
	for range 60 {
		if p.eval(`String(document.activeElement.matches('`+selector+`'))`) == "true" {
			if p.eval(`getComputedStyle(document.activeElement).outlineStyle`) == "none" {
				p.Errorf("nobody sees that the focus is on %s", selector)
			}
			return
		}
		p.do(chromedp.KeyEvent(kb.Tab))
	}
	p.Fatalf("the keyboard never reaches %s", selector)
}

func TestTheKeyboardIsEnough(t *testing.T) {
	s := newSite(t).start()
	p := s.phone(browser(t), t, 1024, 768)
	p.do(chromedp.WaitVisible(css("#join")))
	p.tab("#name")
	p.do(chromedp.KeyEvent("Ada"))
	p.tab("#lead")
	p.do(chromedp.KeyEvent(" "))
	p.tab("#join button")
	p.recorded(chromedp.KeyEvent(kb.Enter))
	p.tab(`.item.open [data-f$="-y"]`)
	p.picture("tablet-start")
	p.recorded(chromedp.KeyEvent(kb.Enter))
	p.waitFor(`document.activeElement.closest('.item.open') && document.activeElement.closest('.item').dataset.key === view.next`)
	// not done, with a reason
	p.tab(`.item.open [data-f$="-n-b"]`)
	p.do(chromedp.KeyEvent(kb.Enter))
	p.waitFor(`document.activeElement.matches('[data-f$="-n-x"]')`)
	p.recorded(chromedp.KeyEvent("nobody is"), chromedp.KeyEvent(kb.Enter))
	p.is(walk.NoGo)
	p.eval(`reach('preflight.wind'); ''`)
	p.tab(`.item.open [inputmode=decimal]`)
	p.do(chromedp.KeyEvent("99"), chromedp.KeyEvent(kb.Enter))
	p.waitFor(`document.querySelector('.item.open [role=alert]').textContent.includes('not plausible')`)
	if focus := p.eval(`document.activeElement.dataset.f || ''`); !strings.HasSuffix(focus, "-v") {
		t.Errorf("after a refusal the focus is on %q, and not where it was typed", focus)
	}
	p.accessible("after a refusal")
	p.picture("tablet-refused")
	p.eval(`scrollTo(0, 0); ''`)
	p.picture("tablet-no-go")
	// what is said aloud: the verdict and what went wrong stand in live regions
	if live := p.eval(`document.getElementById('word').getAttribute('role') + document.getElementById('lost').getAttribute('role')`); live != "statusalert" {
		t.Errorf("the live regions are %q", live)
	}
}

// What one records the others show, and nobody loses what they are typing.
func TestTwoPhonesAreInStep(t *testing.T) {
	s := newSite(t)
	s.pairing = true
	s.start()
	first := browser(t)
	second, cancel := chromedp.NewContext(first)
	t.Cleanup(cancel)
	if err := chromedp.Do(second); err != nil {
		t.Fatal(err)
	}
	a := s.phone(first, t, 390, 844)
	a.do(chromedp.WaitVisible(css("#pair")), chromedp.SendKeys(css("#code"), "1111 1111"), chromedp.Click(css("#pair button")))
	a.waitFor(`document.getElementById('pair-wrong').textContent.includes('not the code')`)
	a.accessible("pairing")
	a.picture("pairing")
	a.do(chromedp.Sleep(2100*time.Millisecond), chromedp.SetValue(css("#code"), s.code), chromedp.Click(css("#pair button")), chromedp.WaitVisible(css("#join")))
	a.join("Ada", true)
	b := s.phone(second, t, 1024, 768) // the same browser: it is paired and known already
	b.eval(`localStorage.clear(); ''`)
	b.do(chromedp.Navigate(b.url))
	b.do(chromedp.WaitVisible(css("#join")), chromedp.SetValue(css("#role"), "safety watch"))
	b.join("Bo", false)
	// each is led to an item of their own part
	for _, one := range []struct {
		phone *phone
		item  string
	}{{a, "preflight.in-charge"}, {b, "preflight.thunder"}} {
		one.phone.waitFor(`document.querySelector('.item.open').dataset.key === '` + one.item + `'`)
	}
	if crew := s.session.State().Crew; len(crew) != 2 || crew[1].Role != "safety watch" {
		t.Errorf("the crew is %v", crew)
	}
	b.eval(`view.clock = 'the clock shows 03:00'; lost(); ''`)
	b.waitFor(`document.getElementById('lost').textContent === 'The clock shows 03:00.' && !document.getElementById('lost').hidden`)
	a.eval(`reach('preflight.wind'); ''`)
	a.do(chromedp.SendKeys(css(`.item.open [inputmode=decimal]`), "1."))
	b.read("preflight.wind", "2.2")
	a.waitFor(`view.phases.some((p) => p.items.some((i) => i.key === 'preflight.wind' && i.by.startsWith('Bo')))`)
	if typed := a.eval(`document.querySelector('.item.open [inputmode=decimal]').value`); typed != "1." {
		t.Errorf("what was typed has become %q", typed)
	}
	if focus := a.eval(`document.activeElement.dataset.f || ''`); !strings.HasSuffix(focus, "-v") {
		t.Errorf("the focus has gone to %q", focus)
	}
	a.recorded(chromedp.SendKeys(css(`.item.open [inputmode=decimal]`), "9"), chromedp.Click(css(`.item.open form button.main`)))
	b.waitFor(`view.phases.some((p) => p.items.some((i) => i.key === 'preflight.wind' && i.answer === '1.9 m/s' && i.by.startsWith('Ada')))`)
	// Bo is not in charge: a hold point is not hers
	b.eval(`reach('preflight.go'); ''`)
	if text := b.eval(`document.querySelector('.item.open').innerText`); !strings.Contains(text, "Ada answers") || strings.Contains(text, "Go on") {
		t.Errorf("on the other phone the hold point says %q", text)
	}
	b.picture("tablet-hold")
}
