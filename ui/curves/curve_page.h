// The page "Characteristic curve" of Curves: what it is of, the chart, the figures and sentences beside it, the drift
// with the age of the mix, and the way from a wanted density to the wanted dose of the session's prints.
#pragma once

#include "ui/common/view.h"
#include "ui/curves/curve_page_state.h"
#include "ui/curves/negative_state.h"

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QHBoxLayout;
class QLabel;
class QPushButton;
class QStackedWidget;
class QTableWidget;
class QTextBrowser;
class QVBoxLayout;

namespace washfast::ui {
class EmptyState;
}

namespace washfast::ui::curves {

class CurveChart;

class CurvePage : public QWidget {
    Q_OBJECT

public:
    explicit CurvePage(const Services& services, QWidget* parent = nullptr);

    [[nodiscard]] const std::shared_ptr<const CurvePageState>& state() const { return state_; }
    [[nodiscard]] const std::vector<CurveGroup>& groups() const { return groups_; }
    [[nodiscard]] CurveOf chosen() const;
    void choose(const CurveOf& of);
    [[nodiscard]] CurveChart* chart() const { return chart_; }
    [[nodiscard]] CurveChart* driftChart() const { return drift_; }
    [[nodiscard]] QDoubleSpinBox* wantedBox() const { return wanted_; }
    [[nodiscard]] QTableWidget* figures() const { return figures_; }
    [[nodiscard]] QString says() const;
    [[nodiscard]] QWidget* first() const;
    /// The dose that the wanted density needs at the paper, J/cm2, with the film over it that was chosen.
    [[nodiscard]] std::optional<double> goal_j_cm2() const;
    void setTheme(const Theme& theme);

public Q_SLOTS:
    void readAgain();
    /// Reads again if the notebook has changed since.
    void refresh();
    void showAgain();

Q_SIGNALS:
    void stateChanged();
    void openPrint(qint64 print);
    void say(const QString& sentence);

protected:
    void showEvent(QShowEvent* event) override;

private:
    void buildBar(QVBoxLayout& column);
    void buildWanted(QVBoxLayout& column);
    QWidget* buildSide();
    void fillGroups();
    void fillFilms();
    void wantAnother();
    void showState();
    void showFigures();
    void showCharts();
    void tellAbout(const CurveChart& chart, int point);
    void save(CurveChart& chart, const QString& name);
    void takeAsGoal();
    [[nodiscard]] QString titleOf() const;

    Services services_;
    std::vector<CurveGroup> groups_;
    std::vector<ClearFilm> films_;
    std::shared_ptr<const CurvePageState> state_;
    bool stale_ = true;
    bool by_hand_ = false; // the wanted density was typed

    QComboBox* of_ = nullptr;
    QComboBox* when_ = nullptr;
    QComboBox* channel_ = nullptr;
    QCheckBox* net_ = nullptr;
    QCheckBox* laid_over_ = nullptr;
    QDoubleSpinBox* wanted_ = nullptr;
    QComboBox* film_ = nullptr;
    QLabel* goal_ = nullptr;
    QPushButton* take_ = nullptr;
    QStackedWidget* pages_ = nullptr;
    EmptyState* empty_ = nullptr;
    CurveChart* chart_ = nullptr;
    CurveChart* drift_ = nullptr;
    QWidget* drift_part_ = nullptr;
    QTableWidget* figures_ = nullptr;
    QTextBrowser* sentences_ = nullptr;
    QLabel* about_ = nullptr;
};

} // namespace washfast::ui::curves
