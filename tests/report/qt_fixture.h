#pragma once

#include <gtest/gtest.h>

#include <QApplication>

namespace ductwright::report {

// A test that draws: it needs the one application object of its program.
struct QtFixture : testing::Test {
  static void SetUpTestSuite() {
    static int argc = 1;
    static char name[] = "test_report";
    static char* argv[] = {name, nullptr};
    if (!QApplication::instance()) new QApplication(argc, argv);
  }
};

}  // namespace ductwright::report
