import { session } from "./tests/agreement/fuzz/sessions.ts";
import { sources } from "./tests/agreement/fuzz/sources.ts";
const t=sources(); console.log(t.length, t.reduce((a,b)=>a+b.length,0)/t.length);
let n=0; const kinds=new Map<string,any>(); const c0=process.cpuUsage(); const t0=Date.now();
for(let s=1;n<8000;s++){ const m=session(s,t); n+=m.cases; for(const f of m.faults){ const k=f.says.replace(/\d+/g,"#").slice(0,100); if(!kinds.has(k)||kinds.get(k).text.length>f.text.length) kinds.set(k,f);} }
console.log(n, process.cpuUsage(c0).user/1e6, process.cpuUsage(c0).system/1e6,Date.now()-t0); for(const [k,f] of kinds) console.log(k, JSON.stringify(f).slice(0,1500));
