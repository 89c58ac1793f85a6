// What every view of the window is: a widget that reads from the desk, writes through it and says where the person
// wants to go.
#pragma once

#include "ui/common/desk.h"
#include "ui/common/dialogs.h"
#include "ui/common/theme.h"

#include <QWidget>

namespace washfast::ui {

/// What the window hands to its views. All of it lives longer than they do.
struct Services {
    Desk& desk;
    Dialogs& dialogs;
    ThemeSource& look;
};

class View : public QWidget {
    Q_OBJECT

public:
    explicit View(const Services& services, QWidget* parent = nullptr)
        : QWidget(parent)
        , desk(services.desk)
        , dialogs(services.dialogs)
        , look(services.look)
        , services_(services)
    {
    }
    /// Shown in the list of views, for example "Bench".
    [[nodiscard]] virtual QString title() const = 0;
    /// Called when the view comes to the front: put the focus where the work is.
    virtual void arrive() = 0;

Q_SIGNALS:
    void openPrint(qint64 print); // show this print's page
    void sideBySide(const QVector<qint64>& prints);
    void showFiltered(const QString& filter); // in the table of prints
    void say(const QString& sentence); // one line, for a few seconds, at the foot of the window

protected:
    [[nodiscard]] const Services& services() const { return services_; }
    Desk& desk;
    Dialogs& dialogs;
    ThemeSource& look;

private:
    Services services_;
};

} // namespace washfast::ui
