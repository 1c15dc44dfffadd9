package hands

import (
	"strings"

	"sinkside/pwa/journey/browser"
)

// Kept is a JavaScript promise of what js makes of the app's database as it is now.
// In js each of the stores stands under its own name: an array of what it holds, and
// meta an object.
func Kept(js string, stores ...string) string {
	names := strings.Join(stores, ",")
	return `new Promise((ok,no)=>{
  const r=indexedDB.open("sinkside");
  r.onerror=()=>no(r.error);
  r.onsuccess=()=>{
    const tx=r.result.transaction(` + browser.Quote(names) + `.split(","));
    const asked=[...tx.objectStoreNames].map(name=>{const s=tx.objectStore(name);return [name,s.getAll(),s.keyPath===null&&s.getAllKeys()]});
    tx.onerror=()=>no(tx.error);
    tx.oncomplete=()=>{
      r.result.close();
      const held=asked.map(([name,all,keys])=>[name,keys?Object.fromEntries(keys.result.map((k,i)=>[k,all.result[i]])):all.result]);
      ok((({` + names + `})=>` + js + `)(Object.fromEntries(held)));
    };
  }})`
}
