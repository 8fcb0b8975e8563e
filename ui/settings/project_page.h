#pragma once

#include <QWidget>

namespace ductwright::ui {

class CriteriaForm;
class DescribeForm;
class Session;
class VerifyBox;

// The project itself: name, units, elevation; who works; the acceptance criteria; whether the file is sound.
class ProjectPage : public QWidget {
  Q_OBJECT

 public:
  explicit ProjectPage(Session& session, QWidget* parent = nullptr);
  [[nodiscard]] DescribeForm& describe() { return *m_describe; }
  [[nodiscard]] VerifyBox& verify() { return *m_verify; }

 private:
  void showState();

  Session& m_session;
  DescribeForm* m_describe;
  CriteriaForm* m_criteria;
  VerifyBox* m_verify;
};

}  // namespace ductwright::ui
