package lanemend.patching;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import lanemend.measure.Figure;

/** What one treatment works out for one defect. */
record Repair(
    List<Figure> figures,
    List<WorkStep> steps,
    Set<Equipment> equipment,
    Optional<LayDownPlan> layDown,
    List<String> notes) {}
