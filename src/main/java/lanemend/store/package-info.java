/**
 * Everything an agency keeps, in one OGC GeoPackage 1.4 file: {@link lanemend.store.Store} opens
 * it, {@link lanemend.store.Snapshot} reads core records out of it, {@link lanemend.store.Change}
 * writes them in one transaction, and {@link lanemend.store.StoreCheck} says what is wrong with it.
 */
package lanemend.store;
