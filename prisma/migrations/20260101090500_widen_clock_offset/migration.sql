-- A device's clock can be off by more than the 24 days that an integer of milliseconds holds.
alter table reading alter column offset_ms type bigint;
alter table step_event alter column offset_ms type bigint;
