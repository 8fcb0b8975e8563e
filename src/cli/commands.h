#pragma once

#include <CLI/CLI.hpp>
#include <memory>
#include <string>

#include "project/project.h"

// Each command adds itself to the program and leaves its exit code in `exit`.
namespace ductwright::cli {

enum class Exit : int { done = 0, fault = 1, usage = 2 };

// Says the sentence on stderr; for `return fault(...)`.
Exit fault(const std::string& sentence);

// Who acts, for commands that write; options shared by them.
struct Actor {
  std::string person;
  std::string role = "commissioning agent";
  std::string reason;

  void addTo(CLI::App& command);
  [[nodiscard]] project::Author author() const;
};

void addCreate(CLI::App& program, Exit& exit);
void addImport(CLI::App& program, Exit& exit);
void addReview(CLI::App& program, Exit& exit);
void addScore(CLI::App& program, Exit& exit);
void addReport(CLI::App& program, Exit& exit, int& argc, char** argv);
void addHistory(CLI::App& program, Exit& exit);
void addVerify(CLI::App& program, Exit& exit);

}  // namespace ductwright::cli
