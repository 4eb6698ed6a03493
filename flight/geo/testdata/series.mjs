// Values of the series at one point. Run in an empty folder:
//   npm install geographiclib-geodesic@2.2.0
//   node series.mjs > series.csv
import lib from 'geographiclib-geodesic';
const eps = 0.2, f = 0.1;
const g = new lib.Geodesic.Geodesic(1, f);
const six = (fill) => { const c = new Array(7).fill(0); fill(c); return c.slice(1); };
const rows = [
  ['a1', lib.Geodesic.A1m1f(eps)],
  ['c1', ...six((c) => lib.Geodesic.C1f(eps, c))],
  ['c1p', ...six((c) => lib.Geodesic.C1pf(eps, c))],
  ['c2', ...six((c) => lib.Geodesic.C2f(eps, c))],
  ['a3', g.A3f(eps)],
  ['c3', ...six((c) => g.C3f(eps, c)).slice(0, 5)],
];
console.log('# geographiclib-geodesic 2.2.0 (npm, MIT), made by series.mjs: epsilon 0.2, flattening 0.1');
for (const row of rows) console.log(row.join(','));
