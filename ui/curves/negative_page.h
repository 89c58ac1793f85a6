// The page "Negative" of Curves: from the curve and a film with measured steps to the table by which a negative is
// printed, and the chart of steps to begin with.
#pragma once

#include "ui/common/view.h"
#include "ui/curves/negative_state.h"

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QPushButton;
class QSpinBox;
class QStackedWidget;
class QTableWidget;
class QTextBrowser;
class QVBoxLayout;

namespace washfast::ui {
class EmptyState;
}

namespace washfast::ui::curves {

class CurveChart;

class NegativePage : public QWidget {
    Q_OBJECT

public:
    explicit NegativePage(const Services& services, QWidget* parent = nullptr);

    /// The curve to work from, and what else can be chosen.
    void setCurve(
        std::shared_ptr<const CurvePageState> curve, const std::vector<CurveGroup>& groups, const CurveOf& chosen);
    [[nodiscard]] const std::shared_ptr<const NegativeState>& state() const { return state_; }
    [[nodiscard]] CurveChart* chart() const { return chart_; }
    [[nodiscard]] QTableWidget* rows() const { return rows_; }
    [[nodiscard]] QComboBox* filmBox() const { return film_; }
    [[nodiscard]] QString says() const;
    [[nodiscard]] QWidget* first() const;
    void setTheme(const Theme& theme);

Q_SIGNALS:
    void curveChosen(const washfast::ui::curves::CurveOf& of);
    void say(const QString& sentence);

private:
    void buildBar(QVBoxLayout& column);
    void buildChartBar(QVBoxLayout& column);
    void fillFilms();
    void showAgain();
    void showRows();
    void saveTable();
    void savePlot();
    void saveStepChart();
    void recordFilm();
    void takeAsGoal();

    Services services_;
    std::shared_ptr<const CurvePageState> curve_;
    std::vector<CurveGroup> groups_;
    std::vector<FilmChoice> films_;
    std::shared_ptr<const NegativeState> state_;

    QComboBox* of_ = nullptr;
    QComboBox* film_ = nullptr;
    QCheckBox* by_shoulder_ = nullptr;
    QDoubleSpinBox* exposure_ = nullptr;
    QPushButton* take_ = nullptr;
    QPushButton* save_table_ = nullptr;
    QPushButton* save_plot_ = nullptr;
    QSpinBox* steps_ = nullptr;
    QCheckBox* mirrored_ = nullptr;
    QStackedWidget* pages_ = nullptr;
    EmptyState* empty_ = nullptr;
    CurveChart* chart_ = nullptr;
    QTableWidget* rows_ = nullptr;
    QTextBrowser* sentences_ = nullptr;
};

} // namespace washfast::ui::curves
