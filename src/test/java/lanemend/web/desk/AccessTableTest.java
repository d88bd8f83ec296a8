package lanemend.web.desk;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import lanemend.accounts.Role;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One table says who may do what, and nothing is outside it. */
class AccessTableTest {
  @TempDir Path folder;

  @Test
  void everyRouteHasALineAndEveryLineARoute() {
    try (SmallDesk desk = SmallDesk.open(folder)) {
      Set<String> lacking = new TreeSet<>(desk.desk().everyRoute());
      lacking.removeAll(AccessTable.rules().keySet());
      StringBuilder toAdd = new StringBuilder();
      lacking.forEach(
          r ->
              toAdd
                  .append("\n    roles(\"")
                  .append(r.replaceFirst(" ", "\", \""))
                  .append("\", PLANNER);"));
      assertEquals(
          Set.of(), lacking, "add to AccessTable, with the roles that may (or signedIn):" + toAdd);
      Set<String> stale = new TreeSet<>(AccessTable.rules().keySet());
      stale.removeAll(desk.desk().everyRoute());
      assertEquals(Set.of(), stale, "lines of AccessTable without a route: remove them");
    }
  }

  @Test
  void onlySigningInIsOpenToEverybody() {
    Set<String> open = new TreeSet<>();
    AccessTable.rules()
        .forEach(
            (route, rule) -> {
              if (rule.open()) {
                open.add(route);
              }
            });
    assertEquals(
        Set.of(
            "get /sign-in",
            "get /api/session",
            "post /api/session",
            // These two tell strangers little or nothing themselves; the program of the phone page
            // has no data in it.
            "get /health",
            // Refuses by itself all but this computer and admins (OperationsTest).
            "get /metrics",
            "get /patrol/worker.js"),
        open);
  }

  @Test
  void theAdminLooksAfterAccountsAndChangesNothingOfTheCounty() {
    AccessTable.rules()
        .forEach(
            (route, rule) -> {
              boolean accounts = route.contains("/accounts") || route.contains("/audit");
              boolean session = route.contains("/session") || route.endsWith("/account");
              assertEquals(
                  accounts,
                  rule.roles().equals(Set.of(Role.ADMIN)),
                  route + ": accounts are the admin's alone");
              // Works out what was asked for, and keeps nothing.
              boolean onlyAsks = route.equals("post /api/renewal/program");
              if (!route.startsWith("get ") && !accounts && !session && !onlyAsks) {
                assertTrue(!rule.roles().contains(Role.ADMIN), route);
              }
            });
  }

  /** A write in the name of the one who started the desk would hide who did it. */
  @Test
  void whoDidItIsTheCaller() {
    noClasses()
        .that()
        .resideInAPackage("lanemend.web.desk")
        .and()
        .doNotHaveSimpleName("Desk")
        .and()
        .doNotHaveSimpleName("DeskSettings")
        .should()
        .callMethod(DeskSettings.class, "who")
        .because("who writes is Caller.name(c), of the request")
        .check(
            new ClassFileImporter()
                .withImportOption(new ImportOption.DoNotIncludeTests())
                .importPackages("lanemend.web.desk"));
  }
}
