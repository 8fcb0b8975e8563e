#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace ductwright::reference {

// The rows of a committed table of numbers below its header line.
inline std::vector<std::vector<double>> rowsOf(const std::string& file, std::size_t columns) {
  std::ifstream in(std::string(DUCTWRIGHT_SOURCE_DIR) + "/tests/reference/" + file);
  EXPECT_TRUE(in.good()) << file;
  std::string line;
  std::getline(in, line);
  std::vector<std::vector<double>> rows;
  while (std::getline(in, line)) {
    std::istringstream cells(line);
    std::string cell;
    std::vector<double> row;
    while (std::getline(cells, cell, ',')) row.push_back(std::stod(cell));
    EXPECT_EQ(row.size(), columns) << file << ": " << line;
    if (row.size() == columns) rows.push_back(row);
  }
  EXPECT_FALSE(rows.empty()) << file;
  return rows;
}

// Asserts that two numbers agree within a share of the expected one.
inline void expectWithin(double actual, double expected, double share) {
  EXPECT_NEAR(actual, expected, share * std::abs(expected));
}

}  // namespace ductwright::reference
