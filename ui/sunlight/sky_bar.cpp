#include "ui/sunlight/sky_bar.h"

#include "ui/sunlight/words.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDateEdit>
#include <QDoubleSpinBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QSignalBlocker>
#include <QVBoxLayout>
#include <algorithm>

namespace washfast::ui::sunlight {

namespace {

constexpr qint64 typedPlace = -1;
constexpr double anySky = -1;

QLabel* labelled(QHBoxLayout& row, const QString& text, QWidget* widget)
{
    auto* label = new QLabel(text, widget->parentWidget());
    label->setBuddy(widget);
    widget->setAccessibleName(QString(text).remove(QLatin1Char('&')).remove(QLatin1Char(':')));
    row.addWidget(label);
    row.addWidget(widget);
    return label;
}

/// As wide as its entries, yet not wider than there is room for.
void fit(QComboBox& box, int letters)
{
    box.setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box.setMinimumContentsLength(letters);
}

} // namespace

light::Sky skySeen(const Notebook& notebook, qint64 session)
{
    const auto& prints = notebook.prints();
    const int of = notebook.catalogue().column(Entity::Print, u"print_session");
    for (int row = 0; row < prints.rows(); ++row) {
        if (prints.link(row, of) != session)
            continue;
        for (const int at : notebook.children(Entity::Exposure, prints.id(row))) {
            const Ref ref { Entity::Exposure, notebook.table(Entity::Exposure).id(at) };
            light::Sky sky { notebook.get(ref, u"cloud_start_eighths").number(),
                light::discFromKey(notebook.get(ref, u"disc_start").text().value_or(QString())) };
            if (sky.noted())
                return sky;
        }
    }
    return {};
}

SkyBar::SkyBar(Desk& desk, const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , desk_(desk)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(5);
    auto* first = new QHBoxLayout;
    auto* second = new QHBoxLayout;
    column->addLayout(first);
    buildFirstLine(*first);
    buildPlaceLine();
    column->addWidget(place_line_);
    column->addLayout(second);
    buildSkyLine(*second);
    setTheme(theme);
}

void SkyBar::buildFirstLine(QHBoxLayout& row)
{
    site_ = new QComboBox(this);
    fit(*site_, 13);
    labelled(row, tr("&Site:"), site_);
    date_ = new QDateEdit(this);
    date_->setCalendarPopup(true);
    date_->setDisplayFormat(QStringLiteral("yyyy-MM-dd"));
    date_->setDateRange(QDate(1970, 1, 1), QDate(2199, 12, 31));
    date_->setMinimumWidth(date_->fontMetrics().horizontalAdvance(QStringLiteral("2000-00-00")) + 44);
    labelled(row, tr("&Date:"), date_);
    lesson_ = new QComboBox(this);
    fit(*lesson_, 17);
    labelled(row, tr("&Lesson:"), lesson_);
    row.addStretch(1);
    corner_ = new QHBoxLayout;
    row.addLayout(corner_);
    connect(site_, &QComboBox::currentIndexChanged, this, &SkyBar::siteChosen);
    connect(date_, &QDateEdit::dateChanged, this, &SkyBar::news);
    connect(lesson_, &QComboBox::currentIndexChanged, this, &SkyBar::lessonChosen);
}

void SkyBar::buildPlaceLine()
{
    place_line_ = new QWidget(this);
    auto* row = new QHBoxLayout(place_line_);
    row->setContentsMargins(0, 0, 0, 0);
    const auto line = [&](const QString& label, const QString& example, int letters) {
        auto* made = new QLineEdit(place_line_);
        made->setPlaceholderText(example);
        made->setMaximumWidth(made->fontMetrics().averageCharWidth() * letters + 24);
        labelled(*row, label, made);
        connect(made, &QLineEdit::textChanged, this, &SkyBar::news);
        return made;
    };
    latitude_ = line(tr("L&atitude:"), tr("48.2"), 9);
    longitude_ = line(tr("L&ongitude:"), tr("16.4"), 9);
    height_ = line(tr("Height, &m:"), tr("200"), 7);
    zone_ = line(tr("Time &zone:"), QStringLiteral("Europe/Lisbon"), 20);
    row->addStretch(1);
    place_line_->hide();
}

void SkyBar::buildSkyLine(QHBoxLayout& row)
{
    cloud_ = new QComboBox(this);
    cloud_->addItem(tr("any sky"), anySky);
    for (int eighths = 0; eighths <= 8; ++eighths)
        cloud_->addItem(eighths == 0 ? tr("none")
                : eighths == 8       ? tr("8/8, all of it")
                                     : tr("%1/8").arg(eighths),
            double(eighths));
    labelled(row, tr("&Cloud:"), cloud_);
    disc_ = new QComboBox(this);
    disc_->addItem(tr("not noted"), -1);
    disc_->addItem(tr("shows"), int(light::Disc::Yes));
    disc_->addItem(tr("half veiled"), int(light::Disc::Partly));
    disc_->addItem(tr("hidden"), int(light::Disc::No));
    labelled(row, tr("S&un's disc:"), disc_);
    behind_ = new QCheckBox(tr("&Behind glass:"), this);
    row.addWidget(behind_);
    pane_ = new QComboBox(this);
    fit(*pane_, 15);
    pane_->setAccessibleName(tr("Which pane"));
    pane_->setEnabled(false);
    row.addWidget(pane_);
    dose_ = new QDoubleSpinBox(this);
    dose_->setRange(0.01, 60);
    dose_->setDecimals(2);
    dose_->setSingleStep(0.1);
    dose_->setSuffix(tr(" J/cm²"));
    labelled(row, tr("Dos&e:"), dose_);
    dose_from_ = new QLabel(this);
    dose_from_->setFont(textFont(font(), TextSize::Small));
    row.addWidget(dose_from_, 1);
    connect(cloud_, &QComboBox::currentIndexChanged, this, &SkyBar::news);
    connect(disc_, &QComboBox::currentIndexChanged, this, &SkyBar::news);
    connect(behind_, &QCheckBox::toggled, this, [this](bool on) {
        pane_->setEnabled(on);
        news();
    });
    connect(pane_, &QComboBox::currentIndexChanged, this, &SkyBar::news);
    connect(dose_, &QDoubleSpinBox::valueChanged, this, [this] {
        if (!filling_) {
            dose_wanted_ = { dose_->value(), Words::tr("as typed"), false };
            dose_from_->clear();
        }
        news();
    });
}

void SkyBar::setTheme(const Theme& theme)
{
    theme_ = theme;
    auto colours = dose_from_->palette();
    colours.setColor(QPalette::WindowText, theme.quiet);
    dose_from_->setPalette(colours);
}

void SkyBar::fill()
{
    filling_ = true;
    const auto& notebook = desk_.notebook();
    const auto kept_site = site_->currentData();
    sites_ = siteChoices(notebook);
    site_->clear();
    for (const auto& choice : sites_)
        site_->addItem(choice.name, choice.id);
    site_->addItem(tr("a place I type"), typedPlace);
    site_->setCurrentIndex(std::max(0, site_->findData(kept_site)));

    const auto kept_lesson = lesson_->currentData();
    lesson_->clear();
    lesson_->addItem(tr("none"), qint64(0));
    const auto& sessions = notebook.table(Entity::Session);
    std::vector<std::pair<Instant, qint64>> order;
    for (int row = 0; row < sessions.rows(); ++row)
        if (const auto starts = notebook.get({ Entity::Session, sessions.id(row) }, u"session_start").time())
            order.emplace_back(*starts, sessions.id(row));
    std::sort(order.begin(), order.end(), std::greater<>());
    for (const auto& [starts, id] : order)
        lesson_->addItem(QStringLiteral("%1, %2").arg(notebook.nameOf({ Entity::Session, id }),
                             starts.toDateTime().toString(QStringLiteral("yyyy-MM-dd HH:mm"))),
            id);
    lesson_->setCurrentIndex(std::max(0, lesson_->findData(kept_lesson)));

    const auto kept_pane = pane_->currentText();
    panes_ = paneChoices(notebook);
    pane_->clear();
    for (const auto& pane : panes_)
        pane_->addItem(pane.name);
    pane_->setCurrentIndex(std::max(0, pane_->findText(kept_pane)));
    place_line_->setVisible(site_->currentData().toLongLong() == typedPlace);
    filling_ = false;
}

void SkyBar::takeSession(qint64 session)
{
    filling_ = true;
    const auto& notebook = desk_.notebook();
    const auto site = siteOfSession(notebook, session);
    if (const int at = site_->findData(site); site != 0 && at >= 0)
        site_->setCurrentIndex(at);
    const auto starts = notebook.get({ Entity::Session, session }, u"session_start").time();
    date_->setDate(starts.value_or(desk_.now()).toDateTime().date());
    lesson_->setCurrentIndex(std::max(0, lesson_->findData(session)));
    setSky(skySeen(notebook, session));
    dose_wanted_ = doseWanted(notebook, session);
    dose_->setValue(dose_wanted_.j_cm2);
    dose_from_->setText(dose_wanted_.from);
    dose_from_->setToolTip(dose_wanted_.from);
    filling_ = false;
    news();
}

std::optional<LightAsk> SkyBar::ask() const
{
    LightAsk ask;
    const auto id = site_->currentData().toLongLong();
    if (id == typedPlace) {
        auto site = readSite(
            desk_.catalogue(), { latitude_->text(), longitude_->text(), height_->text(), zone_->text() }, QLocale());
        if (!site)
            return std::nullopt;
        ask.site = *site;
    } else {
        const auto at = std::find_if(sites_.begin(), sites_.end(), [&](const auto& one) { return one.id == id; });
        if (at == sites_.end() || !at->site)
            return std::nullopt;
        ask.site = *at->site;
    }
    ask.date = date_->date();
    if (cloud_->currentData().toDouble() >= 0)
        ask.sky.eighths = cloud_->currentData().toDouble();
    if (disc_->currentData().toInt() >= 0)
        ask.sky.disc = light::Disc(disc_->currentData().toInt());
    if (behind_->isChecked() && pane_->currentIndex() >= 0)
        ask.pane = panes_[size_t(pane_->currentIndex())];
    ask.dose = dose_wanted_;
    ask.dose.j_cm2 = dose_->value();
    return ask;
}

QString SkyBar::lacking() const
{
    const auto id = site_->currentData().toLongLong();
    if (id == typedPlace) {
        const TypedSite typed { latitude_->text(), longitude_->text(), height_->text(), zone_->text() };
        const auto site = readSite(desk_.catalogue(), typed, QLocale());
        return site ? QString() : site.error().sentence();
    }
    for (const auto& choice : sites_)
        if (choice.id == id)
            return choice.lacking;
    return {};
}

bool SkyBar::anySite() const
{
    return !sites_.empty();
}

qint64 SkyBar::lesson() const
{
    return lesson_->currentData().toLongLong();
}

void SkyBar::typePlace()
{
    site_->setCurrentIndex(site_->findData(typedPlace));
    place_line_->show();
    latitude_->setFocus();
}

void SkyBar::setDate(QDate date)
{
    date_->setDate(date);
}

void SkyBar::setSky(const light::Sky& sky)
{
    cloud_->setCurrentIndex(sky.eighths ? 1 + int(std::clamp(std::lround(*sky.eighths), 0L, 8L)) : 0);
    disc_->setCurrentIndex(disc_->findData(sky.disc ? int(*sky.disc) : -1));
}

void SkyBar::setPane(std::optional<int> pane)
{
    if (pane)
        pane_->setCurrentIndex(*pane);
    behind_->setChecked(pane.has_value());
}

void SkyBar::setPlace(const TypedSite& typed)
{
    typePlace();
    latitude_->setText(typed.latitude);
    longitude_->setText(typed.longitude);
    height_->setText(typed.height);
    zone_->setText(typed.zone);
}

void SkyBar::setLesson(qint64 session)
{
    lesson_->setCurrentIndex(std::max(0, lesson_->findData(session)));
}

QWidget* SkyBar::first() const
{
    return site_;
}

void SkyBar::news()
{
    if (!filling_)
        Q_EMIT changed();
}

void SkyBar::siteChosen()
{
    place_line_->setVisible(site_->currentData().toLongLong() == typedPlace);
    news();
}

void SkyBar::lessonChosen()
{
    if (filling_)
        return;
    // A lesson brings its own day and place along.
    filling_ = true;
    if (const auto starts = desk_.notebook().get({ Entity::Session, lesson() }, u"session_start").time())
        date_->setDate(starts->toDateTime().date());
    if (const auto site = siteOfSession(desk_.notebook(), lesson()); site != 0)
        if (const int at = site_->findData(site); at >= 0)
            site_->setCurrentIndex(at);
    filling_ = false;
    news();
}

} // namespace washfast::ui::sunlight
