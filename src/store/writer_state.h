#pragma once

#include <map>
#include <optional>
#include <string>

#include "facts.h"
#include "store/environment.h"
#include "store/project_file.h"
#include "store/writer.h"

namespace ductwright::store {

// A long action was cancelled by the person.
struct Stopped {};

// One commit in the making.
struct Writer::State {
  const Connection& db;
  const Environment& environment;
  const Progress& progress;
  Digest head;  // the journal's last entry before this commit
  FactWriter facts;
  std::optional<std::int64_t> nextPosition;  // for the next new unit
  std::optional<Failure> problem;
  std::map<std::string, Statement, std::less<>> statements;

  Statement& statement(const std::string& sql) {
    const auto found = statements.find(sql);
    return found != statements.end() ? found->second
                                     : statements.try_emplace(sql, db.prepare(sql)).first->second;
  }
};

}  // namespace ductwright::store
