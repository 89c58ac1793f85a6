// The page that plans a lesson: what is asked at the left, the answer, its timeline and its reasons at the right.
#pragma once

#include "ui/common/desk.h"
#include "ui/sunlight/plan_sheet.h"

#include <QWidget>
#include <set>

class QButtonGroup;
class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QFormLayout;
class QHBoxLayout;
class QLabel;
class QSpinBox;
class QTextBrowser;
class QTimeEdit;

namespace washfast::ui::sunlight {

class PlanPage : public QWidget {
    Q_OBJECT

public:
    PlanPage(Desk& desk, const Theme& theme, QWidget* parent = nullptr);

    /// Takes the form's first values from a session; what a person has set before is set anew.
    void begin(qint64 session);
    /// Another place, day, sky, pane or dose.
    void setAsk(const LightAsk& ask);
    void setTheme(const Theme& theme);
    /// The notebook changed: rates are learnt anew when they are next needed.
    void forgetRates() { rates_.reset(); }

    [[nodiscard]] double length_min() const;
    [[nodiscard]] PlanSheet* sheet() const { return sheet_; }
    [[nodiscard]] const PlanState* plan() const { return plan_.get(); }
    [[nodiscard]] QWidget* first() const; // where the focus begins
    void showPlan(size_t which);

Q_SIGNALS:
    void lengthChanged();

protected:
    void showEvent(QShowEvent* event) override;

private:
    QWidget* buildForm();
    QWidget* buildAnswer();
    QSpinBox* count(QFormLayout& form, const QString& label, const char* field, int low, int high);
    void changed(const char* field);
    void fillPapers(const QString& paper);
    void planAgain();
    void showChoices();
    [[nodiscard]] drying::LessonInput asked() const;

    Desk& desk_;
    Theme theme_;
    std::optional<LightAsk> ask_;
    std::optional<drying::LearntRates> rates_;
    std::vector<std::pair<QString, QString>> missing_;
    std::shared_ptr<const PlanState> plan_;
    bool filling_ = false;
    bool stale_ = true;

    QTimeEdit* starts_ = nullptr;
    QSpinBox* length_ = nullptr;
    QSpinBox* sheets_ = nullptr;
    QSpinBox* coaters_ = nullptr;
    QSpinBox* frames_ = nullptr;
    QSpinBox* trays_ = nullptr;
    QSpinBox* hold_ = nullptr;
    QComboBox* paper_ = nullptr;
    QDoubleSpinBox* coat_ = nullptr;
    QComboBox* method_ = nullptr;
    QCheckBox* covered_ = nullptr;
    QComboBox* picture_ = nullptr;
    QDoubleSpinBox* temperature_ = nullptr;
    QSpinBox* humidity_ = nullptr;
    QLabel* answer_ = nullptr;
    QHBoxLayout* choices_row_ = nullptr;
    QButtonGroup* choices_ = nullptr;
    PlanSheet* sheet_ = nullptr;
    QTextBrowser* reasons_ = nullptr;
};

} // namespace washfast::ui::sunlight
