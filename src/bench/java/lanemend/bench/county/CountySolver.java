package lanemend.bench.county;

import java.util.List;
import lanemend.crewdays.CountyCase;

/** Answers a case within a time, on two threads. */
interface CountySolver {
  List<CountyCase.Day> solve(CountyCase county, double seconds);
}
