#pragma once

#include <concepts>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "fields.h"
#include "sql.h"

// The visitors of fields.h: names of columns, values bound to a statement, values read from a row.
namespace ductwright::store {

template <class T>
concept Quantity = requires(const T& t) {
  { t.si() } -> std::convertible_to<double>;
  T::fromSi(0.0);
};

template <class Enum>
std::string_view word(Enum value) {
  return fleet::name(value);
}
inline std::string_view word(quantity::System system) {
  return system == quantity::System::ip ? "ip" : "si";
}
inline std::string_view word(fleet::DecisionRule rule) {
  return rule == fleet::DecisionRule::simple ? "simple" : "guarded";
}

// The value that a word stands for; a word that we never write means that the file is damaged.
template <class Enum>
Enum fromWord(std::string_view text) {
  std::optional<Enum> value;
  if constexpr (std::is_same_v<Enum, quantity::System> || std::is_same_v<Enum, fleet::DecisionRule>) {
    for (const Enum candidate : {static_cast<Enum>(0), static_cast<Enum>(1)})
      if (word(candidate) == text) value = candidate;
  } else {
    value = fleet::read<Enum>(text);
  }
  if (!value) throw SqlError(SQLITE_CORRUPT, "\"" + std::string(text) + "\" is not a word of this program");
  return *value;
}

class ColumnNames {
 public:
  template <class T>
  void operator()(const char* name, const T&) {
    names.emplace_back(name);
  }
  template <class T>
  void moment(const char* at, const char* offset, const T&) {
    names.emplace_back(at);
    names.emplace_back(offset);
  }
  std::vector<std::string> names;
};

class Binder {
 public:
  Binder(Statement& statement, int index) : m_statement(statement), m_index(index) {}

  template <class T>
  void operator()(const char*, const T& value) {
    put(value);
  }
  void moment(const char*, const char*, const fleet::Timestamp& t) {
    put(t.utcMillis);
    put(static_cast<int>(t.offsetMinutes));
  }
  void moment(const char* at, const char* offset, const std::optional<fleet::Timestamp>& t) {
    if (t) return moment(at, offset, *t);
    m_statement.bindNull(m_index++);
    m_statement.bindNull(m_index++);
  }

 private:
  void put(const std::string& text) { m_statement.bind(m_index++, text); }
  void put(double value) { m_statement.bind(m_index++, value); }
  void put(std::int64_t value) { m_statement.bind(m_index++, value); }
  void put(int value) { m_statement.bind(m_index++, value); }
  void put(bool value) { m_statement.bind(m_index++, value ? 1 : 0); }
  void put(const fleet::Day& day) { put(day.text()); }
  template <Quantity T>
  void put(const T& value) {
    put(value.si());
  }
  template <class Enum>
  requires std::is_enum_v<Enum>
  void put(Enum value) { m_statement.bind(m_index++, word(value)); }
  template <class Enum>
  void put(const std::vector<Enum>& values) {
    std::string text;
    for (const Enum value : values) {
      if (!text.empty()) text += ", ";
      text += word(value);
    }
    put(text);
  }
  template <class T>
  void put(const std::optional<T>& value) {
    if (value)
      put(*value);
    else
      m_statement.bindNull(m_index++);
  }

  Statement& m_statement;
  int m_index;
};

class RowReader {
 public:
  RowReader(const Statement& statement, int column) : m_statement(statement), m_column(column) {}

  template <class T>
  void operator()(const char*, T& value) {
    take(value);
  }
  void moment(const char*, const char*, fleet::Timestamp& t) {
    t.utcMillis = m_statement.integer(m_column++);
    t.offsetMinutes = static_cast<std::int16_t>(m_statement.integer(m_column++));
  }
  void moment(const char* at, const char* offset, std::optional<fleet::Timestamp>& t) {
    if (!m_statement.isNull(m_column)) return moment(at, offset, t.emplace());
    t.reset();
    m_column += 2;
  }

 private:
  void take(std::string& text) { text = m_statement.text(m_column++); }
  void take(double& value) { value = m_statement.real(m_column++); }
  void take(std::int64_t& value) { value = m_statement.integer(m_column++); }
  void take(int& value) { value = static_cast<int>(m_statement.integer(m_column++)); }
  void take(bool& value) { value = m_statement.integer(m_column++) != 0; }
  void take(fleet::Day& day) {
    const auto read = fleet::Day::fromText(m_statement.text(m_column++));
    if (!read) throw SqlError(SQLITE_CORRUPT, "a calendar day cannot be read");
    day = *read;
  }
  template <Quantity T>
  void take(T& value) {
    value = T::fromSi(m_statement.real(m_column++));
  }
  template <class Enum>
  requires std::is_enum_v<Enum>
  void take(Enum& value) { value = fromWord<Enum>(m_statement.text(m_column++)); }
  template <class Enum>
  void take(std::vector<Enum>& values) {
    values.clear();
    std::string_view text = m_statement.text(m_column++);
    while (!text.empty()) {
      const std::size_t end = text.find(", ");
      values.push_back(fromWord<Enum>(text.substr(0, end)));
      text = end == std::string_view::npos ? std::string_view() : text.substr(end + 2);
    }
  }
  template <class T>
  void take(std::optional<T>& value) {
    if (!m_statement.isNull(m_column)) return take(value.emplace());
    value.reset();
    ++m_column;
  }

  const Statement& m_statement;
  int m_column;
};

template <class Record>
std::vector<std::string> columnsOf() {
  ColumnNames names;
  const Record record{};
  fields(names, record);
  return names.names;
}

// "SELECT keys…, fields… FROM table rest".
template <class Record>
std::string selectSql(std::string_view table, std::string_view keys, std::string_view rest = {}) {
  std::string sql = "SELECT " + std::string(keys);
  for (const std::string& column : columnsOf<Record>()) sql += ", \"" + column + '"';
  return sql + " FROM " + std::string(table) + ' ' + std::string(rest);
}

// Adds a row or replaces the fields of the one with the same key.
template <class Record>
std::string upsertSql(std::string_view table, const std::vector<std::string>& keys,
                      const std::vector<std::string>& onlyWhenNew = {}) {
  std::string names, values, key, updates;
  const auto append = [](std::string& list, std::string_view part) {
    if (!list.empty()) list += ", ";
    list += part;
  };
  for (const std::string& column : keys) append(key, column);
  for (const auto* list : {&keys, &onlyWhenNew})
    for (const std::string& column : *list) {
      append(names, column);
      append(values, "?");
    }
  for (const std::string& column : columnsOf<Record>()) {
    append(names, '"' + column + '"');
    append(values, "?");
    append(updates, '"' + column);
    updates += "\" = excluded.\"";
    updates += column + '"';
  }
  return "INSERT INTO " + std::string(table) + " (" + names + ") VALUES (" + values + ") ON CONFLICT (" +
         key + ") DO UPDATE SET " + updates;
}

}  // namespace ductwright::store
