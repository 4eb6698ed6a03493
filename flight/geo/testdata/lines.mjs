// Golden geodesics. Run in an empty folder:
//   npm install geographiclib-geodesic@2.2.0
//   node lines.mjs > lines.csv
import lib from 'geographiclib-geodesic';
const g = lib.Geodesic.WGS84;

// Park and Miller's minimal standard generator.
let state = 20260101;
const random = () => (state = (state * 48271) % 2147483647) / 2147483647;
const between = (a, b) => a + (b - a) * random();
const cut = (x) => Number(x.toFixed(9));
// uniform over the globe
const latitude = () => Math.asin(between(-1, 1)) * 180 / Math.PI;

const rows = [];
const add = (kind, a, b, c, d) => rows.push([kind, ...[a, b, c, d].map(cut)]);
for (let i = 0; i < 150; i++) add('any', latitude(), between(-180, 180), latitude(), between(-180, 180));
for (let i = 0; i < 100; i++) {
  const lat = latitude(), lon = between(-180, 180), spread = 10 ** between(-6, 0.3);
  add('opposite', lat, lon, -lat + between(-spread, spread), lon + 180 + between(-spread, spread));
}
for (let i = 0; i < 40; i++) {
  const spread = 10 ** between(-8, 0);
  add('opposite on the equator', between(-spread, spread), 0, between(-spread, spread), 180 - between(0, 0.7));
}
for (let i = 0; i < 60; i++) {
  const lat = latitude(), lon = between(-180, 180), spread = 10 ** between(-7, -1);
  add('near', lat, lon, lat + between(-spread, spread), lon + between(-spread, spread));
}
for (let i = 0; i < 30; i++) {
  const lon = between(-180, 180);
  add('meridian', latitude(), lon, latitude(), i % 2 ? lon : lon + 180);
}
for (let i = 0; i < 20; i++) add('equator', 0, between(-180, 180), 0, between(-180, 180));
for (const lon of [0, 30, 179.9, 180]) {
  add('pole', 90, 0, -90, lon);
  add('pole', 90, 0, latitude(), lon);
  add('pole', latitude(), 10, -90, lon);
}
for (const lon of [179, 179.39, 179.4, 179.5, 179.999, 180]) add('equator', 0, 0, 0, lon);
add('same', 12.5, -7.25, 12.5, -7.25);
add('same', -90, 0, -90, 77);

console.log('# geographiclib-geodesic 2.2.0 (npm, MIT), made by lines.mjs; degrees and metres');
console.log('kind,lat1,lon1,lat2,lon2,s12,azi1,azi2');
for (const [kind, a, b, c, d] of rows) {
  const r = g.Inverse(a, b, c, d);
  console.log([kind, a, b, c, d, r.s12.toFixed(9), r.azi1.toFixed(12), r.azi2.toFixed(12)].join(','));
}
