package lanemend.renewal.repairs;

/** How many times its family's rate a cell's weak section has; 1 outside weak sections. */
@FunctionalInterface
interface CellLevel {
  /** No weak sections. */
  CellLevel NONE = i -> 1;

  double of(int cell);
}
