#include "exchange/problem.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace ductwright::exchange {

std::string Problem::sentence() const {
  std::string out;
  if (!header.empty()) (out += header) += ": ";
  out += what;
  if (!todo.empty()) (out += ", ") += todo;
  return out;
}

std::string Problem::line(std::string_view file) const {
  std::string out(file);
  if (row != 0) (out += ':') += std::to_string(row);
  return (out += ": ") += sentence();
}

void Problems::add(Problem problem) {
  (problem.weight == Weight::error ? m_errors : m_warnings) += 1;
  m_blocked = m_blocked || (problem.weight == Weight::error && problem.row == 0);
  if (m_list.size() < kListed) m_list.push_back(std::move(problem));
}

void Problems::add(const Problems& others) {
  for (const Problem& problem : others.m_list) add(problem);
  std::size_t listedErrors = 0;
  for (const Problem& problem : others.m_list) listedErrors += problem.weight == Weight::error ? 1 : 0;
  m_errors += others.m_errors - listedErrors;
  m_warnings += others.m_warnings - (others.m_list.size() - listedErrors);
  m_blocked = m_blocked || others.m_blocked;
}

void Problems::sortByRow() {
  std::stable_sort(m_list.begin(), m_list.end(), [](const Problem& a, const Problem& b) {
    return std::tie(a.row, a.column) < std::tie(b.row, b.column);
  });
}

}  // namespace ductwright::exchange
