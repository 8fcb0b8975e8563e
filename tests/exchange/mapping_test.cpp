#include "exchange/mapping.h"

#include <gmock/gmock.h>

#include <map>

#include "reading_files.h"

namespace ductwright::exchange::testing {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::IsSupersetOf;

std::string columnFor(TableKind kind, const std::string& header) {
  const auto mapping = suggestMapping(kind, readPasted(header + "\n1\n"));
  const auto& h = mapping.headers.at(0);
  return h.match <= Match::synonym ? h.column + (h.unit.empty() ? "" : " [" + h.unit + "]") : h.match == Match::likely ? "likely " + h.column : "";
}

TEST(Mapping, KnowsItsOwnHeadersWithoutRegardToCaseBlanksAndHyphens) {
  for (const TableKind kind : {TableKind::schedule, TableKind::airHandlers, TableKind::profiles, TableKind::roomSensors, TableKind::segments,
                               TableKind::settings, TableKind::instruments, TableKind::readings})
    for (const Column& column : columnsOf(kind)) {
      std::string loud(column.name);
      for (char& c : loud) c = c == ' ' ? '_' : static_cast<char>(std::toupper(c));
      EXPECT_EQ(columnFor(kind, std::string(column.name)), column.name);
      EXPECT_EQ(columnFor(kind, loud), column.name);
    }
}

TEST(Mapping, NoSynonymMeansTwoColumns) {
  for (const TableKind kind : {TableKind::schedule, TableKind::airHandlers, TableKind::profiles, TableKind::roomSensors, TableKind::segments,
                               TableKind::settings, TableKind::instruments, TableKind::readings}) {
    std::map<std::string, std::string_view> seen;
    for (const Column& column : columnsOf(kind)) {
      std::string_view rest = column.synonyms;
      while (!rest.empty()) {
        const auto word = std::string(rest.substr(0, rest.find(' ')));
        const auto [at, isNew] = seen.emplace(word, column.name);
        EXPECT_TRUE(isNew || at->second == column.name) << word << " means " << at->second << " and " << column.name;
        rest.remove_prefix(std::min(word.size() + 1, rest.size()));
      }
    }
  }
}

TEST(Mapping, KnowsTheHeadersThatPeopleWrite) {
  EXPECT_EQ(columnFor(TableKind::schedule, "Clg Max (CFM)"), "cooling max flow [CFM]");
  EXPECT_EQ(columnFor(TableKind::schedule, "Cooling Max CFM"), "cooling max flow [CFM]");
  EXPECT_EQ(columnFor(TableKind::schedule, "Max. Cooling Airflow [L/s]"), "cooling max flow [L/s]");
  EXPECT_EQ(columnFor(TableKind::schedule, "Htg Min"), "heating min flow");
  EXPECT_EQ(columnFor(TableKind::schedule, "Unit No."), "unit");
  EXPECT_EQ(columnFor(TableKind::schedule, "AHU"), "air handler");
  EXPECT_EQ(columnFor(TableKind::schedule, "Inlet Dia. (in.)"), "inlet diameter [in.]");
  EXPECT_EQ(columnFor(TableKind::schedule, "Heater kW"), "heater power [kW]");
  EXPECT_EQ(columnFor(TableKind::schedule, "EWT °F"), "coil entering water temperature [°F]");
  EXPECT_EQ(columnFor(TableKind::schedule, "Coil GPM"), "coil water flow [GPM]");
  EXPECT_EQ(columnFor(TableKind::schedule, "GPM"), "coil water flow [GPM]") << "also in an SI project";
  EXPECT_EQ(columnFor(TableKind::readings, "Timestamp"), "taken at");
  EXPECT_EQ(columnFor(TableKind::instruments, "Serial No."), "serial");
}

TEST(Mapping, OffersWhatOnlyLooksAlikeAndLeavesTheRest) {
  EXPECT_EQ(columnFor(TableKind::schedule, "coolng max flow"), "likely cooling max flow");
  EXPECT_EQ(columnFor(TableKind::schedule, "Colour"), "");
  EXPECT_EQ(columnFor(TableKind::schedule, "Remarks"), "");
}

TEST(Mapping, FindsTheHeaderBelowTitles) {
  const Table table = tableFrom("Invented Building,,,,\nTerminal units,,,,\nunit,floor,kind,cooling max flow,cooling min flow\n1,1,reheat,2,1\n");
  const Mapping mapping = suggestMapping(TableKind::schedule, table);
  EXPECT_EQ(mapping.headerRow, 2U);
  EXPECT_EQ(layoutOf(mapping, table, quantity::System::ip).firstRow, 3U);
}

TEST(Mapping, ABetterMatchSetsTheOtherAside) {
  const Mapping mapping = suggestMapping(TableKind::schedule, tableFrom("unit,tag,floor\n1,x,2\n"));
  EXPECT_EQ(mapping.headers[0].column, "unit");
  EXPECT_EQ(mapping.headers[1].column, "");
}

TEST(Mapping, TwoEqualHeadersAreToldNotChosenBetween) {
  const Table table = tableFrom("Box,Tag,floor,kind,cooling max,cooling min\n1,x,2,reheat,2,1\n");
  EXPECT_THAT(linesOf(layoutFrom(TableKind::schedule, table).problems),
              ElementsAre("f: Tag: this column and “Box” both seem to be “unit”, choose one in the mapping"));
}

TEST(Mapping, TellsMissingColumnsAndUnusedOnes) {
  const Table table = tableFrom("unit,floor,kind,coolng max flow,Remarks\n1,2,reheat,4,x\n");
  EXPECT_THAT(linesOf(layoutFrom(TableKind::schedule, table).problems),
              ElementsAre("f: coolng max flow: the column is not used, it looks like “cooling max flow”, say in the mapping what it is",
                          "f: Remarks: the column is not used, say in the mapping what it is, if it should go in",
                          "f: the column “cooling max flow” is missing, say in the mapping whether “coolng max flow” is it",
                          "f: the column “cooling min flow” is missing, add it, or say in the mapping which column it is"));
}

TEST(Mapping, TellsAHeaderWithAnUnknownUnit) {
  const Table table = tableFrom("unit,floor,kind,cooling max flow [cubits],cooling min flow (design)\n1,2,reheat,4,2\n");
  EXPECT_THAT(linesOf(layoutFrom(TableKind::schedule, table).problems),
              IsSupersetOf({"f: cooling max flow [cubits]: “cubits” is not a unit of airflow, correct the header or choose a unit in the mapping"}));
}

TEST(Mapping, ByHandGoesBeforeEverything) {
  const Table table = tableFrom("Name,unit,floor,kind,A,B\n2-01,x,2,reheat,450,120\n");
  Mapping mapping = suggestMapping(TableKind::schedule, table);
  mapping.set(0, "unit");
  mapping.set(4, "cooling max flow", "L/s");
  mapping.set(5, "cooling min flow", "L/s");
  EXPECT_EQ(mapping.headers[1].column, "");
  const auto import = readSchedule(table, layoutOf(mapping, table, quantity::System::ip));
  ASSERT_EQ(import.records.size(), 1U);
  EXPECT_EQ(import.records[0].record.tag, "2-01");
  EXPECT_EQ(import.records[0].record.coolingMax, quantity::litresPerSecond(450));
}

TEST(Mapping, IsKeptAsTextAndServesTheNextFile) {
  const Table table = tableFrom("\"Box \"\"A\"\"\";\"two\nlines\";floor;kind;A;Remarks\n2-01;x;2;reheat;1,250;x\n");
  Mapping mapping = suggestMapping(TableKind::schedule, table);
  mapping.set(0, "unit");
  mapping.set(1, "cooling min flow");
  mapping.set(4, "cooling max flow", "m3/h");
  mapping.decimal = Decimal::point;
  EXPECT_EQ(mapping.text(), R"(ductwright column mapping 1
table: schedule
decimal: point
"Box \"A\"" = unit
"two\nlines" = cooling min flow
"floor" = floor
"kind" = kind
"A" = cooling max flow [m3/h]
"Remarks" =
)");
  const auto kept = readMapping(mapping.text());
  ASSERT_TRUE(kept) << kept.error().sentence;
  const Table next = tableFrom("A;kind;floor;zone;\"two\nlines\";\"Box \"\"A\"\"\"\n1,250;reheat;3;east;100;3-01\n");
  const auto import = readSchedule(next, layoutOf(applyMapping(*kept, next), next, quantity::System::ip));
  ASSERT_EQ(import.records.size(), 1U);
  EXPECT_EQ(import.records[0].record.tag, "3-01");
  EXPECT_EQ(import.records[0].record.zone, "east");
  EXPECT_DOUBLE_EQ(import.records[0].record.coolingMax->si(), 1250.0 / 3600);
}

TEST(Mapping, AKeptOneCanBeChangedByHandBeforeItIsApplied) {
  const Table table = tableFrom("Flow,Flow,unit,floor,kind\n450,120,1-01,1,reheat\n");
  auto kept = readMapping(suggestMapping(TableKind::schedule, table).text());
  ASSERT_TRUE(kept);
  kept->set(kept->headers[0].source, "cooling max flow");
  kept->set(kept->headers[1].source, "cooling min flow");
  kept = readMapping(kept->text());
  ASSERT_TRUE(kept);
  const auto import = readSchedule(table, layoutOf(applyMapping(*kept, table), table, quantity::System::ip));
  ASSERT_EQ(import.records.size(), 1U) << ::testing::PrintToString(linesOf(import.problems));
  EXPECT_EQ(import.records[0].record.coolingMax, quantity::cfm(450));
  EXPECT_EQ(import.records[0].record.coolingMin, quantity::cfm(120));
}

TEST(Layout, SaysHowTheFileWasUnderstood) {
  const auto described = [](const char* text) {
    const Table table = tableFrom(text);
    return describe(table, layoutFrom(TableKind::schedule, table));
  };
  EXPECT_EQ(described("unit;cooling max flow\n1;12,5\n"), "CSV, UTF-8, semicolon, decimal comma");
  EXPECT_EQ(described("unit,cooling max flow\n1,12.5\n"), "CSV, UTF-8, comma, decimal point");
  EXPECT_EQ(described("unit\tcooling max flow\n1\t1.250\n"), "CSV, UTF-8, tab, decimal mark unclear");
}

TEST(Mapping, SaysWhatIsWrongWithAKeptOne) {
  const auto sentence = [](const char* text) { return readMapping(text).error().sentence; };
  EXPECT_EQ(sentence("unit,floor\n"), "The file is not a column mapping: its first line must be “ductwright column mapping 1”.");
  EXPECT_EQ(sentence("ductwright column mapping 1\n\"A\" = unit\n"),
            "The column mapping does not say which table it is for: add a line such as “table: schedule”.");
  EXPECT_EQ(sentence("ductwright column mapping 1\ntable: schedule\n\"A\" = colour\n"),
            "“colour” is not a column of the table “schedule”: use its own header.");
  EXPECT_EQ(sentence("ductwright column mapping 1\ntable: fish\n"),
            "“table: fish” is not understood in a column mapping: write a line such as \"Tag\" = unit.");
  EXPECT_EQ(sentence("ductwright column mapping 1\ntable: schedule\n\"A = unit\n"),
            "“\"A = unit” has no header in quotes and no =: write \"Tag\" = unit.");
}

TEST(Layout, TellsRowsThatAreWiderOrNarrowerThanTheHeader) {
  const Table table = tableFrom("unit,floor,kind,cooling max flow,cooling min flow\n1,1,reheat,1,250,100\n2,1,reheat\n3,1,reheat,450,100,\n");
  const auto import = readSchedule(table, layoutFrom(TableKind::schedule, table));
  EXPECT_THAT(linesOf(import.problems),
              IsSupersetOf({"f:2: the row has 6 cells and the header 5, look for a delimiter inside a cell and put that cell in quotes",
                            "f:3: the row has 3 cells and the header 5, see whether its last cells are missing"}));
  ASSERT_EQ(import.records.size(), 1U);
  EXPECT_EQ(import.records[0].record.tag, "3");
}

TEST(Layout, SaysWhenThereIsNothingToRead) {
  EXPECT_THAT(linesOf(layoutFrom(TableKind::schedule, readPasted("")).problems), ElementsAre("f: the table is empty, choose another file or sheet"));
  const Table table = tableFrom("unit,floor,kind,cooling max flow,cooling min flow\n");
  EXPECT_THAT(linesOf(layoutFrom(TableKind::schedule, table).problems),
              ElementsAre("f: there are no rows below the headers, choose another file or sheet"));
}

}  // namespace
}  // namespace ductwright::exchange::testing
