#include "ui/bench/station_cautions.h"

#include "core/chemistry/mix_record.h"
#include "core/light/session_uv.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>
#include <algorithm>

namespace washfast::ui {

QString workAt(Station station)
{
    switch (station) {
    case Station::Coat:
        return QStringLiteral("coating");
    case Station::Dry:
        return QStringLiteral("drying");
    case Station::Expose:
        return QStringLiteral("exposing");
    case Station::Rinse:
        return QStringLiteral("rinsing");
    case Station::About:
    case Station::Hold:
    case Station::Read:
        break;
    }
    return {};
}

std::vector<chemistry::Caution> cautionsAt(
    const Notebook& notebook, Station station, const QVector<qint64>& prints, SessionId session)
{
    const auto work = workAt(station);
    if (work.isEmpty())
        return {};
    std::vector<qint64> mixes;
    for (const auto print : prints)
        if (const auto mix = notebook.get({ Entity::Print, print }, u"print_mix").link())
            if (std::find(mixes.begin(), mixes.end(), *mix) == mixes.end())
                mixes.push_back(*mix);
    QStringList substances;
    for (const auto mix : mixes)
        substances << chemistry::reckon(chemistry::batchOf(notebook, mix)).substances();
    substances.removeDuplicates();
    if (substances.isEmpty()) // every mix of this process holds it, recorded or not
        substances << QStringLiteral("K3[Fe(CN)6]");
    auto cautions = chemistry::cautionsFor(substances, work);
    for (auto& caution : cautions)
        if (caution.key == QLatin1String("sun"))
            caution = chemistry::sunCaution(light::highestUvIndex(notebook, session));
    return cautions;
}

StationCautions::StationCautions(const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , text_(new QLabel(this))
    , why_(new QToolButton(this))
{
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    text_->setWordWrap(true);
    text_->setTextFormat(Qt::PlainText);
    text_->setFont(textFont(font(), TextSize::Small));
    text_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    text_->setAccessibleName(tr("What to mind at this station"));
    row->addWidget(text_, 1);
    why_->setText(tr("Why?"));
    why_->setCheckable(true);
    why_->setFocusPolicy(Qt::StrongFocus);
    why_->setAccessibleName(tr("Why, and what to do"));
    why_->setToolTip(tr("Why, and what to do"));
    connect(why_, &QToolButton::toggled, this, &StationCautions::tell);
    row->addWidget(why_, 0, Qt::AlignTop);
    setTheme(theme);
    hide();
}

void StationCautions::setCautions(const std::vector<chemistry::Caution>& cautions)
{
    QStringList all;
    what_.clear();
    for (const auto& caution : cautions) {
        what_ << caution.what;
        all << caution.what + QLatin1Char(' ') + caution.why + QLatin1Char(' ') + caution.todo;
    }
    if (all != all_) {
        all_ = all;
        why_->setChecked(false);
    }
    tell();
    setVisible(!what_.isEmpty());
}

void StationCautions::tell()
{
    text_->setText(why_->isChecked() ? all_.join(QLatin1Char('\n')) + QLatin1Char('\n') + chemistry::deferral()
                                     : tr("▲ Mind: %1").arg(what_.join(QLatin1Char(' '))));
}

QString StationCautions::text() const
{
    return text_->text();
}

void StationCautions::setTheme(const Theme& theme)
{
    auto colours = palette();
    colours.setColor(QPalette::WindowText, theme.ink);
    text_->setPalette(colours);
}

} // namespace washfast::ui
