#include "ui/curves/curve_page.h"

#include "core/quantity/value_text.h"
#include "ui/common/chart_export.h"
#include "ui/common/empty_state.h"
#include "ui/curves/curve_chart.h"
#include "ui/curves/dose_goal.h"
#include "ui/curves/words.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableWidget>
#include <QTextBrowser>
#include <algorithm>

namespace washfast::ui::curves {

void CurvePage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    refresh();
}

void CurvePage::refresh()
{
    if (stale_)
        readAgain();
}

QWidget* CurvePage::first() const
{
    return of_;
}

CurveOf CurvePage::chosen() const
{
    const int at = of_->currentIndex();
    return at >= 0 && at < int(groups_.size()) ? groups_[size_t(at)].of : CurveOf {};
}

void CurvePage::choose(const CurveOf& of)
{
    refresh();
    for (size_t i = 0; i < groups_.size(); ++i)
        if (groups_[i].of == of)
            of_->setCurrentIndex(int(i));
}

QString CurvePage::says() const
{
    return pages_->currentIndex() == 0 ? empty_->sentence() : sentences_->toPlainText();
}

void CurvePage::readAgain()
{
    stale_ = false;
    fillGroups();
    fillFilms();
    showAgain();
}

void CurvePage::fillGroups()
{
    const auto before = chosen();
    const auto& reader = services_.desk.reader();
    groups_ = curveGroups(reader.notebook(), steppedPrints(reader));
    const QSignalBlocker quiet(of_);
    of_->clear();
    for (const auto& group : groups_)
        of_->addItem(group.of.by == CurveOf::By::Print
                ? group.name
                : tr("%1, %2").arg(group.name, tr("%n print(s)", nullptr, group.prints)));
    for (size_t i = 0; i < groups_.size(); ++i)
        if (groups_[i].of == before)
            of_->setCurrentIndex(int(i));
}

void CurvePage::fillFilms()
{
    films_ = clearFilms(services_.desk.notebook());
    const auto before = film_->currentText();
    const QSignalBlocker quiet(film_);
    film_->clear();
    film_->addItem(tr("nothing"));
    for (const auto& film : films_)
        film_->addItem(tr("%1, clearest %2").arg(film.name, figure(film.uv_density, 2)));
    film_->setCurrentIndex(std::max(0, film_->findText(before)));
}

void CurvePage::showAgain()
{
    if (groups_.empty()) {
        state_.reset();
        empty_->setContent(tr("No curve can be drawn"),
            services_.desk.complete() ? tr(
                "A curve needs a print under a wedge with known ultraviolet densities, or a stepped strip, with the "
                "density of its steps read: on the Reading desk, or typed on the print's page.")
                                      : tr("The rest of the notebook is being read."),
            {});
    } else {
        CurveAsk ask { chosen(), when_->currentData().toString(), channel_->currentData().toString(),
            net_->isChecked() };
        if (by_hand_)
            ask.wanted = wanted_->value();
        state_ = std::make_shared<const CurvePageState>(services_.desk.reader(), ask);
        if (!by_hand_ && state_->ask().wanted) {
            const QSignalBlocker quiet(wanted_);
            wanted_->setValue(*state_->ask().wanted);
        }
    }
    showState();
    Q_EMIT stateChanged();
}

void CurvePage::wantAnother()
{
    by_hand_ = true;
    if (!state_)
        return;
    state_ = std::make_shared<const CurvePageState>(state_->withWanted(wanted_->value()));
    showState();
}

void CurvePage::showState()
{
    // Without a single point the reasons stand in the middle, where the curve would be.
    const bool any = state_ && !state_->prints().empty();
    if (state_ && !any)
        empty_->setContent(tr("No curve can be drawn"), state_->sentences().join(QLatin1Char('\n')), {});
    pages_->setCurrentIndex(any ? 1 : 0);
    wanted_->setEnabled(any);
    film_->setEnabled(any);
    take_->setEnabled(state_ && state_->target() && state_->target()->log_h);
    goal_->clear();
    tellAbout(*chart_, -1);
    if (!any)
        return;
    laid_over_->setEnabled(state_->pooled().has_value());
    showFigures();
    showCharts();
}

void CurvePage::showFigures()
{
    const auto figures = state_->figures();
    figures_->setRowCount(int(figures.size()));
    for (size_t i = 0; i < figures.size(); ++i) {
        const auto& one = figures[i];
        const QString texts[] { one.name, one.value, one.interval };
        for (int c = 0; c < 3; ++c) {
            auto* item = new QTableWidgetItem(texts[c]);
            item->setToolTip(one.hint);
            if (c > 0)
                item->setTextAlignment(figureAlignment);
            figures_->setItem(int(i), c, item);
        }
    }
    QString html;
    for (const auto& sentence : state_->sentences())
        html += QStringLiteral("<p style='margin:0 0 5px 0'>%1</p>").arg(sentence.toHtmlEscaped());
    sentences_->setHtml(html);
    const auto goal = goal_j_cm2();
    take_->setEnabled(goal.has_value());
    goal_->setText(goal     ? tr("needs %1 J/cm² at the paper").arg(doseFigure(*goal))
            : state_->fit() ? tr("is not reached within the steps")
                            : QString());
}

QString CurvePage::titleOf() const
{
    return tr("%1: density against dose").arg(state_->title());
}

void CurvePage::showCharts()
{
    const bool laid_over = laid_over_->isChecked();
    QStringList names;
    for (const auto& print : state_->prints())
        names << (state_->pooled()
                ? tr("%1 (%2%3)")
                      .arg(print.print.code, print.shift < -0.005 ? QString(QChar(0x2212)) : QStringLiteral("+"),
                          figure(std::abs(print.shift), 2))
                : print.print.code);
    chart_->setPicture(curvePicture(*state_, laid_over), titleOf(), names, state_->inWords());
    auto drift = driftPicture(*state_);
    drift_part_->setVisible(drift.points.size() > 1);
    if (drift.points.size() > 1)
        drift_->setPicture(std::move(drift), tr("Shift against the age of the mix"), {},
            tr("Above 0: the print needs more exposure than the ordinary one."));
}

std::optional<double> CurvePage::goal_j_cm2() const
{
    const auto wanted = state_ ? state_->target() : std::nullopt;
    if (!wanted || !wanted->log_h)
        return {};
    const int film = film_->currentIndex() - 1;
    const double over = film >= 0 && film < int(films_.size()) ? films_[size_t(film)].uv_density : 0;
    return std::pow(10, *wanted->log_h + over);
}

void CurvePage::tellAbout(const CurveChart& chart, int point)
{
    if (!state_ || point < 0 || point >= int(chart.picture().points.size())) {
        about_->setText(state_ && !state_->prints().empty()
                ? tr("Point at a step to see which it is; click or press Enter to open its print.")
                : QString());
        return;
    }
    const auto& at = chart.picture().points[size_t(point)];
    const auto& print = state_->prints()[size_t(at.group)];
    QStringList parts { print.print.code };
    const auto step = std::find_if(print.steps.points.begin(), print.steps.points.end(),
        [&](const density::StepPoint& one) { return one.step == at.step; });
    if (step != print.steps.points.end()) // a point of the drift is no step
        parts << tr("step %1").arg(at.step) << tr("%1 J/cm²").arg(doseFigure(std::pow(10, step->log_h)))
              << tr("density %1").arg(figure(step->density, 2))
              << (step->spread ? tr("spread %1").arg(figure(*step->spread, 3)) : QString())
              << (step->evidence == Evidence::Measured ? QString() : tr("estimated"))
              << (at.left_out ? tr("turned back, left out") : QString());
    if (print.shift_error)
        parts << tr("shift of the print %1 %2 %3")
                     .arg(figure(print.shift, 2), QString(QChar(0xB1)), figure(*print.shift_error, 2));
    if (print.print.mix_age_d)
        parts << tr("mix %1 days old").arg(figure(*print.print.mix_age_d, 1));
    parts.removeAll(QString());
    about_->setText(parts.join(QStringLiteral("  ·  ")));
}

void CurvePage::save(CurveChart& chart, const QString& name)
{
    if (!state_)
        return;
    const auto title = chart.accessibleName();
    const auto path = services_.dialogs.saveFile(this, tr("Save the plot"), name, chartFileFilters());
    if (!path)
        return;
    if (const auto problem = saveChart(chart, *path, title); !problem.isEmpty())
        services_.dialogs.error(this, tr("The plot was not saved"), problem, *path);
    else
        Q_EMIT say(tr("Saved: %1").arg(*path));
}

void CurvePage::takeAsGoal()
{
    const auto done
        = takeGoal(services_.desk, services_.dialogs, this, goalPlan(services_.desk, chosen(), goal_j_cm2()));
    if (!done.isEmpty())
        Q_EMIT say(done);
}

void CurvePage::setTheme(const Theme& theme)
{
    empty_->setTheme(theme);
    chart_->setTheme(theme);
    drift_->setTheme(theme);
}

} // namespace washfast::ui::curves
