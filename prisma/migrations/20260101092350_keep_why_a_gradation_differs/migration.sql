-- The first gradation of a revision takes the place of the one before it: its reason is kept beside it.
alter table gradation drop constraint gradation_reason_of_correction;
alter table gradation add constraint gradation_reason_of_correction check (supersedes_id is null or reason is not null);
