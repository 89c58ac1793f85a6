// What is asked of the light, above the pages of Sunlight: place, day, lesson, sky, pane and dose.
#pragma once

#include "ui/common/desk.h"
#include "ui/common/theme.h"
#include "ui/sunlight/light_ask.h"

#include <QWidget>

class QCheckBox;
class QComboBox;
class QDateEdit;
class QDoubleSpinBox;
class QHBoxLayout;
class QLabel;
class QLineEdit;

namespace washfast::ui::sunlight {

class SkyBar : public QWidget {
    Q_OBJECT

public:
    SkyBar(Desk& desk, const Theme& theme, QWidget* parent = nullptr);

    /// Sites, sessions and covers anew from the notebook; what is chosen stays while it is there.
    void fill();
    /// The running session's place, day, sky and dose.
    void takeSession(qint64 session);
    /// Nothing without a place; then lacking() says why.
    [[nodiscard]] std::optional<LightAsk> ask() const;
    [[nodiscard]] QString lacking() const;
    [[nodiscard]] bool anySite() const;
    /// The session that is laid over the day; 0 for none.
    [[nodiscard]] qint64 lesson() const;
    void setTheme(const Theme& theme);

    void typePlace(); // opens the fields for a place and goes there
    void setDate(QDate date);
    void setSky(const light::Sky& sky);
    void setPane(std::optional<int> pane); // by its place in the list; nothing switches it off
    void setPlace(const TypedSite& typed);
    void setLesson(qint64 session);
    [[nodiscard]] QWidget* first() const;
    /// Room at the right end of the first line, for the page's buttons.
    [[nodiscard]] QHBoxLayout* corner() const { return corner_; }

Q_SIGNALS:
    void changed();

private:
    void buildFirstLine(QHBoxLayout& row);
    void buildSkyLine(QHBoxLayout& row);
    void buildPlaceLine();
    void news();
    void siteChosen();
    void lessonChosen();

    Desk& desk_;
    Theme theme_;
    std::vector<SiteChoice> sites_;
    std::vector<Pane> panes_;
    bool filling_ = false;
    DoseWanted dose_wanted_;

    QComboBox* site_ = nullptr;
    QDateEdit* date_ = nullptr;
    QComboBox* lesson_ = nullptr;
    QComboBox* cloud_ = nullptr;
    QComboBox* disc_ = nullptr;
    QCheckBox* behind_ = nullptr;
    QComboBox* pane_ = nullptr;
    QDoubleSpinBox* dose_ = nullptr;
    QLabel* dose_from_ = nullptr;
    QWidget* place_line_ = nullptr;
    QLineEdit* latitude_ = nullptr;
    QLineEdit* longitude_ = nullptr;
    QLineEdit* height_ = nullptr;
    QLineEdit* zone_ = nullptr;
    QHBoxLayout* corner_ = nullptr;
};

/// The sky as it was first seen at an exposure of this session; nothing noted when it never was.
[[nodiscard]] light::Sky skySeen(const Notebook& notebook, qint64 session);

} // namespace washfast::ui::sunlight
