#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QSignalSpy>

#include "sample_state.h"
#include "ui/fleet/fleet_filter.h"

namespace ductwright::ui {
namespace {

using verdict::Outcome;

// A model under the eyes of Qt's own checker, with its signals counted.
struct Watched {
  FleetModel model;
  QAbstractItemModelTester tester{&model, QAbstractItemModelTester::FailureReportingMode::Fatal};
  QSignalSpy changed{&model, &QAbstractItemModel::dataChanged};
  QSignalSpy inserted{&model, &QAbstractItemModel::rowsInserted};
  QSignalSpy removed{&model, &QAbstractItemModel::rowsRemoved};
  QSignalSpy reset{&model, &QAbstractItemModel::modelReset};

  void clear() {
    for (QSignalSpy* spy : {&changed, &inserted, &removed, &reset}) spy->clear();
  }
  QString cell(int row, FleetModel::Column column) { return model.index(row, column).data().toString(); }
};

void measure(fleet::Snapshot& project, std::size_t unit, double cfm) {
  auto record = std::make_shared<fleet::UnitRecord>(*project.units[unit]);
  record->readings.push_back(inventedReading(9, fleet::AirflowStep::coolingMax, fleet::ReadingQuantity::measuredFlow, cfm));
  record->runs = {{{invented(101)}, fleet::Procedure::airflow, 1, {}, "Ada Invented", ""}};
  project.units[unit] = record;
}

TEST(FleetModel, ShowsEachUnitWithItsResultAndScore) {
  Watched w;
  w.model.setState(stateOf(inventedFleet()));
  ASSERT_EQ(w.model.rowCount(), 3);
  EXPECT_EQ(w.cell(0, FleetModel::tag), "1-1");
  EXPECT_EQ(w.cell(0, FleetModel::result), "pass");
  EXPECT_EQ(w.cell(0, FleetModel::lockout), "—");  // no heat
  EXPECT_EQ(w.cell(1, FleetModel::result), "untested");
  EXPECT_EQ(w.cell(1, FleetModel::score), "—");
  EXPECT_EQ(w.cell(0, FleetModel::inlet), "8.00 in.");
  EXPECT_EQ(w.model.index(0, FleetModel::result).data(FleetModel::outcomeRole).toInt(), static_cast<int>(Outcome::pass));
  EXPECT_TRUE(w.model.index(0, FleetModel::score).data(Qt::TextAlignmentRole).toInt() & Qt::AlignRight);
}

TEST(FleetModel, TellsOfTheOneRowThatChanged) {
  Watched w;
  fleet::Snapshot project = inventedFleet();
  const auto before = stateOf(project);
  w.model.setState(before);
  w.clear();
  measure(project, 1, 200);
  auto after = stateOf(project);
  auto verdicts = std::make_shared<verdict::FleetVerdict>(verdict::judgeAgain(*after.snapshot, *before.snapshot, *before.verdicts));
  after.verdicts = verdicts;
  w.model.setState(after);
  ASSERT_EQ(w.changed.count(), 1);
  EXPECT_EQ(w.changed[0][0].toModelIndex().row(), 1);
  EXPECT_EQ(w.changed[0][1].toModelIndex().row(), 1);
  EXPECT_EQ(w.inserted.count() + w.removed.count() + w.reset.count(), 0);
  EXPECT_EQ(w.cell(1, FleetModel::result), "fail");
}

TEST(FleetModel, SaysNothingWhenNothingChanged) {
  Watched w;
  const auto state = stateOf(inventedFleet());
  w.model.setState(state);
  w.clear();
  w.model.setState(state);
  EXPECT_EQ(w.changed.count() + w.inserted.count() + w.removed.count() + w.reset.count(), 0);
}

TEST(FleetModel, InsertsAndRemovesInPlace) {
  Watched w;
  fleet::Snapshot project = inventedFleet();
  w.model.setState(stateOf(project));
  w.clear();
  auto record = std::make_shared<fleet::UnitRecord>();
  record->unit = inventedUnit(7, "1-3", "1");
  project.units.insert(project.units.begin() + 2, record);
  w.model.setState(stateOf(project));
  ASSERT_EQ(w.inserted.count(), 1);
  EXPECT_EQ(w.inserted[0][1].toInt(), 2);
  EXPECT_EQ(w.model.rowCount(), 4);
  project.units.erase(project.units.begin());
  w.model.setState(stateOf(project));
  ASSERT_EQ(w.removed.count(), 1);
  EXPECT_EQ(w.removed[0][1].toInt(), 0);
  EXPECT_EQ(w.cell(0, FleetModel::tag), "1-2");
  EXPECT_EQ(w.reset.count(), 0);
}

TEST(FleetModel, CountsOpenDeficienciesOnly) {
  Watched w;
  fleet::Snapshot project = inventedFleet();
  w.model.setState(stateOf(project));
  fleet::Deficiency open, closed;
  open.id = {invented(50)};
  open.unit = closed.unit = project.units[0]->unit.id;
  closed.id = {invented(51)};
  closed.moves = {{fleet::DeficiencyState::proven, {}, "Ada Invented", fleet::Role::agent, ""}};
  project.deficiencies = {open, closed};
  w.model.setState(stateOf(project));
  EXPECT_EQ(w.cell(0, FleetModel::deficiencies), "1");
  EXPECT_EQ(w.cell(1, FleetModel::deficiencies), "");
}

TEST(FleetModel, ShowsTheProjectsSystem) {
  Watched w;
  fleet::Snapshot project = inventedFleet();
  w.model.setState(stateOf(project));
  project.system = quantity::System::si;
  w.model.setState(stateOf(project));
  EXPECT_EQ(w.cell(0, FleetModel::inlet), "203 mm");
}

TEST(FleetFilter, FindsByWordsAndChoices) {
  FleetModel model;
  FleetFilter filter(&model);
  const QAbstractItemModelTester tester(&filter, QAbstractItemModelTester::FailureReportingMode::Fatal);
  model.setState(stateOf(inventedFleet()));
  filter.choose({"room 1-", {}, {}, {}, {}});
  EXPECT_EQ(filter.rowCount(), 2);
  filter.choose({"room 2-1", {}, {}, {}, {}});
  EXPECT_EQ(filter.rowCount(), 1);
  filter.choose({{}, {static_cast<int>(Outcome::pass)}, {}, {}, {}});
  ASSERT_EQ(filter.rowCount(), 1);
  EXPECT_EQ(filter.index(0, FleetModel::tag).data().toString(), "1-1");
  filter.choose({{}, {}, "2", {}, {}});
  EXPECT_EQ(filter.rowCount(), 1);
  filter.choose({{}, {}, {}, "AHU-1", "cooling only"});
  EXPECT_EQ(filter.rowCount(), 2);
  filter.choose({{}, {}, {}, "AHU-1", "exhaust"});
  EXPECT_EQ(filter.rowCount(), 0);
}

TEST(FleetFilter, SortsTagsAsPeopleCount) {
  FleetModel model;
  FleetFilter filter(&model);
  fleet::Snapshot project;
  for (const char* tag : {"2-14", "2-9", "10-1"}) {
    auto record = std::make_shared<fleet::UnitRecord>();
    record->unit = inventedUnit(static_cast<std::uint8_t>(project.units.size() + 1), tag, "2");
    project.units.push_back(record);
  }
  model.setState(stateOf(project));
  filter.sort(FleetModel::tag);
  QStringList tags;
  for (int row = 0; row < 3; ++row) tags << filter.index(row, FleetModel::tag).data().toString();
  EXPECT_EQ(tags, (QStringList{"2-9", "2-14", "10-1"}));
}

TEST(FleetFilter, SortsByResultWithTheWorstFirst) {
  FleetModel model;
  FleetFilter filter(&model);
  fleet::Snapshot project = inventedFleet();
  measure(project, 2, 100);
  model.setState(stateOf(project));
  filter.sort(FleetModel::result);
  EXPECT_EQ(filter.index(0, FleetModel::tag).data().toString(), "2-1");
  EXPECT_EQ(filter.index(2, FleetModel::tag).data().toString(), "1-1");
}

}  // namespace
}  // namespace ductwright::ui
