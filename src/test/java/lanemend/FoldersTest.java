package lanemend;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.library.Architectures.LayeredArchitecture;
import org.junit.jupiter.api.Test;

/**
 * Holds the direction of dependencies: the folders are the job in order, the edges know the core.
 */
class FoldersTest {

  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .importPackages("lanemend");

  private static final String[] CORE = {
    "lanemend.measure..",
    "lanemend.network..",
    "lanemend.inventory..",
    "lanemend.patching..",
    "lanemend.crewdays..",
    "lanemend.renewal.."
  };

  private static LayeredArchitecture folders() {
    return layeredArchitecture()
        .consideringOnlyDependenciesInLayers()
        .layer("measure")
        .definedBy("lanemend.measure..")
        .layer("network")
        .definedBy("lanemend.network..")
        .layer("inventory")
        .definedBy("lanemend.inventory..")
        .layer("patching")
        .definedBy("lanemend.patching..")
        .layer("crewdays")
        .definedBy("lanemend.crewdays..")
        .layer("renewal")
        .definedBy("lanemend.renewal..")
        .layer("store")
        .definedBy("lanemend.store..")
        .layer("exchange")
        .definedBy("lanemend.exchange..")
        .layer("county")
        .definedBy("lanemend.county..")
        .layer("web")
        .definedBy("lanemend.web..")
        .layer("accounts")
        .definedBy("lanemend.accounts..")
        .layer("sqlite")
        .definedBy("lanemend.sqlite..")
        .layer("sample")
        .definedBy("lanemend.sample..")
        .layer("cli")
        .definedBy("lanemend.cli..");
  }

  @Test
  void dependenciesPointOneWay() {
    folders()
        .whereLayer("cli")
        .mayNotBeAccessedByAnyLayer()
        .whereLayer("sample")
        .mayOnlyBeAccessedByLayers("cli")
        .whereLayer("web")
        .mayOnlyBeAccessedByLayers("cli")
        .whereLayer("accounts")
        .mayOnlyBeAccessedByLayers("cli", "web")
        .whereLayer("county")
        .mayOnlyBeAccessedByLayers("cli", "web")
        .whereLayer("store")
        .mayOnlyBeAccessedByLayers("cli", "web", "county")
        .whereLayer("sqlite")
        .mayOnlyBeAccessedByLayers("store", "accounts")
        .whereLayer("exchange")
        .mayOnlyBeAccessedByLayers("cli", "web", "sample", "county")
        .whereLayer("renewal")
        .mayOnlyBeAccessedByLayers("store", "exchange", "web", "sample", "county", "cli")
        .whereLayer("crewdays")
        .mayOnlyBeAccessedByLayers("renewal", "store", "exchange", "web", "sample", "county", "cli")
        .whereLayer("patching")
        .mayOnlyBeAccessedByLayers(
            "crewdays", "renewal", "store", "exchange", "web", "sample", "county", "cli")
        .whereLayer("inventory")
        .mayOnlyBeAccessedByLayers(
            "patching",
            "crewdays",
            "renewal",
            "store",
            "exchange",
            "web",
            "sample",
            "county",
            "cli")
        .whereLayer("network")
        .mayOnlyBeAccessedByLayers(
            "inventory",
            "patching",
            "crewdays",
            "renewal",
            "store",
            "exchange",
            "web",
            "sample",
            "county",
            "cli")
        .check(CLASSES);
  }

  @Test
  void theCoreKnowsNoSqlHttpJsonOrFiles() {
    noClasses()
        .that()
        .resideInAnyPackage(CORE)
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(
            "java.sql..",
            "javax.sql..",
            "org.sqlite..",
            "java.net.http..",
            "io.javalin..",
            "com.fasterxml.jackson..",
            "org.apache.commons.csv..",
            "java.nio.file..",
            "picocli..",
            "com.openhtmltopdf..")
        .check(CLASSES);
  }

  @Test
  void onlyTheStoreAndTheExchangeSpeakSql() {
    noClasses()
        .that()
        .resideOutsideOfPackages(
            "lanemend.store..", "lanemend.exchange..", "lanemend.accounts..", "lanemend.sqlite..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("java.sql..", "org.sqlite..")
        .check(CLASSES);
  }
}
