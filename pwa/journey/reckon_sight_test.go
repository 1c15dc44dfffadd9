package journey

import (
	"testing"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// With a keyboard alone, whatever takes the focus on a narrow phone is in sight, and not behind the bar at
// the foot.
func TestReckonByKeyboardAlone(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	ph.View(360, 640, false)
	ph.Turn("#/reckon/solution")
	ph.Tap(browser.Hook("reckon-example"))
	ph.See(browser.Hook("peek"))
	browser.Eval[bool](ph.Page, `(scrollTo(0,0),document.querySelector("h1").focus(),true)`)
	seen := map[string]bool{}
	for range 40 {
		ph.Key("Tab", nil)
		at := browser.Eval[string](ph.Page, `document.activeElement.dataset.test??""`)
		if !ph.Soon(browser.Patience, focusInSight) {
			t.Errorf("%q has the focus, and is behind the bar at the foot or out of sight", at)
		}
		seen[at] = true
		if at == "peek" {
			break
		}
	}
	for _, want := range []string{"input-litres", "input-litres_pm", "unit-litres", "input-form", "input-pure_density", "plus-minus", "reckon-clear", "peek"} {
		if !seen[want] {
			t.Errorf("%s never has the focus", want)
		}
	}
}

const focusInSight = `(()=>{
  const e=document.activeElement, r=e.getBoundingClientRect(), bar=document.querySelector(".peek").getBoundingClientRect();
  const behind=e.closest("form")&&!e.matches(".peek")&&r.bottom>bar.top+1&&r.top<bar.bottom;
  return !behind&&r.top>=-1&&r.bottom<=innerHeight+1})()`

// Enter, which a phone's keys call "Go", leads to what a form waits for, then to its answer. A screen reader
// says the answer in short.
func TestReckonByEnter(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	ph.Turn("#/reckon/mass_per_area")
	ph.Tap(browser.Hook("reckon-example"))
	ph.Until("the answer to be said", `[...document.querySelectorAll("[role=status].unseen")].some(e=>/Mass per area: [\d.]+/.test(e.innerText))`)
	ph.Turn("#/reckon/tray")
	ph.Reads("h1", "What a tray holds")
	ph.Type(browser.Hook("input-length"), "80")
	at := func(field string) {
		t.Helper()
		ph.Until("the way to "+field, `document.activeElement.dataset.test===`+browser.Quote(field))
	}
	ph.Keys("\r")
	at("input-width")
	ph.Keys("sixty")
	says(ph, "“sixty” is no number")
	ph.Keys("\r")
	at("input-width")
	ph.Type(browser.Hook("input-width"), "60")
	ph.Gone(".fault")
	ph.Keys("\r")
	at("input-depth")
	ph.Keys("8,5")
	ph.See(browser.Hook("value-litres"))
	ph.Keys("\r")
	ph.Until("the way to the answer", `document.activeElement.matches(".answer")&&document.activeElement.getBoundingClientRect().top<60`)
	ph.Until("its short form, which says no figure above the cautions", `[...document.querySelectorAll("[role=status].unseen")].some(e=>e.innerText.includes("cautions for people"))`)
}

// The bar with the first figure stands above an on-screen keyboard, which lies over the page.
func TestReckonAboveTheKeyboard(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	ph.Before(`{const v=Object.assign(new EventTarget(),{height:640,offsetTop:0,scale:1});
	  Object.defineProperty(window,"visualViewport",{value:v});
	  window.keyboard=h=>{v.height=innerHeight-h;v.dispatchEvent(new Event("resize"));return true}}`)
	ph.View(360, 640, false)
	ph.Reload()
	ph.Turn("#/reckon/rinse")
	ph.Tap(browser.Hook("reckon-example"))
	ph.See(browser.Hook("peek"))
	foot := `Math.round(document.querySelector(".peek").getBoundingClientRect().bottom)`
	browser.Eval[bool](ph.Page, `(scrollTo(0,0),true)`)
	ph.Until("the bar at the foot of the page", foot+`===640-8`)
	browser.Eval[bool](ph.Page, `keyboard(270)`)
	ph.Until("the bar above the keyboard", foot+`===640-270-8`)
	browser.Eval[bool](ph.Page, `keyboard(0)`)
	ph.Until("the bar at the foot again", foot+`===640-8`)
}

// With letters of twice the size nothing hangs over the edge of a narrow phone, and a figure is read in its field.
func TestReckonInLargeLetters(t *testing.T) {
	t.Parallel()
	m := machine.New(t, t.TempDir())
	m.Start()
	ph := pairedPhone(t, m, "Runa's phone", "RV")
	ph.View(360, 640, true)
	browser.Eval[bool](ph.Page, `(document.documentElement.style.fontSize="200%",true)`)
	for _, name := range []string{"solution", "several", "light_cap", "hydrate", "estimate"} {
		ph.Turn("#/reckon/" + name)
		ph.Until("another form", `document.querySelector("[data-test=reckon-example]")&&!document.querySelector("[data-test=reckon-is-example]")`)
		ph.Tap(browser.Hook("reckon-example"))
		ph.See(browser.Hook("reckon-is-example"))
		ph.See(browser.Hook("working"))
		if over := browser.Eval[[]string](ph.Page, overhanging); len(over) > 0 {
			t.Errorf("%s hangs over the edge: %.300q", name, over)
		}
		if cut := browser.Eval[[]string](ph.Page, cutFigures); len(cut) > 0 {
			t.Errorf("%s cuts figures off: %q", name, cut)
		}
	}
}

// cutFigures lists the fields for figures that are too narrow for what stands in them.
const cutFigures = `[...document.querySelectorAll("input[inputmode=decimal]")].filter(e=>e.scrollWidth>e.clientWidth+1).map(e=>e.dataset.test+" "+e.value)`
