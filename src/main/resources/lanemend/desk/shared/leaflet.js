// The one place that names the library's version.
export * from '/webjars/leaflet/1.9.4/dist/leaflet-src.esm.js';
