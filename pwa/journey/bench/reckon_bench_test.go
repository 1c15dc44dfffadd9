package bench

import (
	"encoding/json"
	"path/filepath"
	"slices"
	"testing"

	"sinkside/pwa/journey/browser"
	"sinkside/pwa/journey/machine"
)

// asks starts the library's worker as the app does and asks each reckoning its
// example, times over: from the page into the worker and back, so that the call is
// in it. The second member of each is the median, the third the slowest, in ms.
const asks = `(async (url,times)=>{
  const worker=new Worker(url,{type:"module"});
  let n=0;
  const call=(method,...args)=>new Promise((done,failed)=>{
    const id="bench-"+(++n);
    const hear=e=>{
      const r=e.data.reply;
      if(r.id!==id)return;
      worker.removeEventListener("message",hear);
      if("failed" in r)failed(new Error(r.failed)); else done(r.value);
    };
    worker.addEventListener("message",hear);
    worker.postMessage({id,method,args});
  });
  const took=async f=>{const t=performance.now(); await f(); return performance.now()-t};
  const median=async(name,inputs,times)=>{
    const cold=await took(()=>call("run",name,inputs));
    const ms=[];
    for(let i=0;i<times;i++)ms.push(await took(()=>call("run",name,inputs)));
    ms.sort((a,b)=>a-b);
    return [name,ms[times>>1],cold];
  };
  let list=[];
  const first=await took(async()=>{list=await call("list")});
  const each=[];
  for(const r of list)each.push(await median(r.name,JSON.parse(r.example),times));
  // Once more, now that nothing is new to the browser; the first calls stay those of before.
  for(const [i,r] of list.entries())each[i]=[r.name,(await median(r.name,JSON.parse(r.example),times))[1],each[i][2]];
  const pieces=[];
  for(let i=0;i<20;i++)pieces.push({name:"piece "+i,width:(60+17*i)+" mm",height:(400-13*i)+" mm",count:2,grain:["along","across","free"][i%3]});
  const layout=await median("cutting",{...JSON.parse(list.find(r=>r.name==="cutting").example),pieces},5);
  worker.terminate();
  return JSON.stringify({first,each,layout});
})`

// asked is what asks leaves behind.
type asked struct {
	First  float64 // the library fetched, compiled, started, its list told
	Each   []took
	Layout took // 40 pieces laid out
}

type took struct {
	Name          string
	Median, First float64
}

func (t *took) UnmarshalJSON(b []byte) error {
	return json.Unmarshal(b, &[]any{&t.Name, &t.Median, &t.First})
}

// A reckoning in the library as it runs on a phone, at this machine's speed and
// with every thread four times slower.
func BenchmarkReckoning(b *testing.B) {
	found, err := filepath.Glob("../../dist/assets/desk-*.js")
	if err != nil || len(found) != 1 {
		b.Fatalf("the library's worker: %v (%v)", found, err)
	}
	worker := "/assets/" + filepath.Base(found[0])
	for name, how := range map[string]struct {
		times string // each is asked: slowed, a call takes long
		slow  func(*browser.Chromium) (restore func())
	}{
		"plain": {"25", func(*browser.Chromium) func() { return func() {} }},
		"all":   {"7", func(c *browser.Chromium) func() { return c.Slow(4) }},
	} {
		b.Run(name, func(b *testing.B) {
			m := machine.New(b, b.TempDir())
			m.Start()
			c, p, _ := phone(b, m, m.Hosts())
			for b.Loop() {
				restore := how.slow(c)
				text := browser.Eval[string](p.Page, asks+`("`+worker+`",`+how.times+`)`)
				restore()
				var got asked
				if err := json.Unmarshal([]byte(text), &got); err != nil {
					b.Fatal(err)
				}
				reportAsked(b, got)
			}
		})
	}
}

func reportAsked(b *testing.B, got asked) {
	var medians []float64
	slowest, first := got.Each[0], 0.0
	for _, t := range got.Each {
		medians = append(medians, t.Median)
		first = max(first, t.First)
		if t.Median > slowest.Median {
			slowest = t
		}
	}
	slices.Sort(medians)
	b.Logf("of %d reckonings %s is the slowest, %.2f ms", len(got.Each), slowest.Name, slowest.Median)
	b.ReportMetric(medians[len(medians)/2], "half-ms")
	b.ReportMetric(slowest.Median, "slowest-ms")
	b.ReportMetric(first, "first-call-ms")
	b.ReportMetric(got.Layout.Median, "layout-ms")
	b.ReportMetric(got.First, "first-ms")
	b.ReportMetric(0, "ns/op")
}
