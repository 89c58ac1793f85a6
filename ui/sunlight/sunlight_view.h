// Sunlight: a day's ultraviolet with the lesson on it, the year's weeks, and a plan of the lesson.
#pragma once

#include "ui/common/view.h"
#include "ui/sunlight/day_state.h"
#include "ui/sunlight/year_state.h"

#include <memory>

class QLabel;
class QPushButton;
class QSpinBox;
class QStackedWidget;
class QTabWidget;
class QTimeEdit;

namespace washfast::ui {

class EmptyState;

namespace sunlight {
class DaySheet;
class PaintedSheet;
class PlanPage;
class SkyBar;
class YearSheet;
} // namespace sunlight

class SunlightView : public View {
    Q_OBJECT

public:
    enum class Page { Day, Year, Plan };

    explicit SunlightView(const Services& services, QWidget* parent = nullptr);

    [[nodiscard]] QString title() const override { return tr("Sunlight"); }
    void arrive() override;
    void showPage(Page page);
    [[nodiscard]] sunlight::SkyBar* bar() const { return bar_; }
    [[nodiscard]] sunlight::DaySheet* daySheet() const { return day_sheet_; }
    [[nodiscard]] sunlight::YearSheet* yearSheet() const { return year_sheet_; }
    [[nodiscard]] sunlight::PlanPage* planPage() const { return plan_; }

public Q_SLOTS:
    void save();

private:
    QWidget* buildDay();
    QWidget* buildYear();
    void buildCorner();
    void followTheme(const Theme& theme);
    void takeNews();
    void showAgain(); // what was asked has changed
    void showDay(const sunlight::LightAsk& ask);
    void showYear(const sunlight::LightAsk& ask);
    void tellYear();
    [[nodiscard]] sunlight::PaintedSheet* sheet() const; // of the page in front
    [[nodiscard]] QString sheetTitle() const;

    sunlight::SkyBar* bar_ = nullptr;
    QPushButton* save_ = nullptr;
    QPushButton* copy_ = nullptr;
    QStackedWidget* stack_ = nullptr;
    EmptyState* empty_ = nullptr;
    QTabWidget* tabs_ = nullptr;
    sunlight::DaySheet* day_sheet_ = nullptr;
    QLabel* readout_ = nullptr;
    QLabel* about_ = nullptr;
    QLabel* caution_ = nullptr;
    sunlight::YearSheet* year_sheet_ = nullptr;
    QTimeEdit* hour_ = nullptr;
    QSpinBox* within_ = nullptr;
    QLabel* weeks_ = nullptr;
    QLabel* year_readout_ = nullptr;
    sunlight::PlanPage* plan_ = nullptr;
    std::shared_ptr<const sunlight::YearState> year_;
    bool stale_ = true; // the lists from the notebook
    bool begun_ = false;
};

} // namespace washfast::ui
