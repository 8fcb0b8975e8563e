<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="en_US" sourcelanguage="en_US">
<context>
    <name>ductwright::ui::DeficienciesPage</name>
    <message numerus="yes">
        <source>%1 of %n deficiency(s)</source>
        <translation>
            <numerusform>%1 of %n deficiency</numerusform>
            <numerusform>%1 of %n deficiencies</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>ductwright::ui::FleetPage</name>
    <message numerus="yes">
        <source>%n unit(s)</source>
        <translation>
            <numerusform>%n unit</numerusform>
            <numerusform>%n units</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 of %n unit(s)</source>
        <translation>
            <numerusform>%1 of %n unit</numerusform>
            <numerusform>%1 of %n units</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>ductwright::ui::HistoryModel</name>
    <message numerus="yes">
        <source>%1 (and %n more)</source>
        <translation>
            <numerusform>%1 (and %n more)</numerusform>
            <numerusform>%1 (and %n more)</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>ductwright::ui::ImportPage</name>
    <message numerus="yes">
        <source>%n row(s): %1 to add, %2 to change, %3 unchanged, %4 with problems that keep them out.</source>
        <translation>
            <numerusform>%n row: %1 to add, %2 to change, %3 unchanged, %4 with problems that keep them out.</numerusform>
            <numerusform>%n rows: %1 to add, %2 to change, %3 unchanged, %4 with problems that keep them out.</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>ductwright::ui::ResultToggles</name>
    <message numerus="yes">
        <source>Show only: %1, %n unit(s)</source>
        <translation>
            <numerusform>Show only: %1, %n unit</numerusform>
            <numerusform>Show only: %1, %n units</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>ductwright::ui::ReviewPage</name>
    <message numerus="yes">
        <source>%n finding(s) in the schedule, before anyone goes on site</source>
        <translation>
            <numerusform>%n finding in the schedule, before anyone goes on site</numerusform>
            <numerusform>%n findings in the schedule, before anyone goes on site</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>ductwright::ui::UnitPage</name>
    <message numerus="yes">
        <source>%n open deficiency(s)</source>
        <translation>
            <numerusform>%n open deficiency</numerusform>
            <numerusform>%n open deficiencies</numerusform>
        </translation>
    </message>
</context>
</TS>
