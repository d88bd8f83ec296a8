/** The agency's one file: an OGC GeoPackage read and written through SQLite. */
package lanemend.store;
