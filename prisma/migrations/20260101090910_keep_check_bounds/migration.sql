-- What a check was judged by: nominal value and tolerance as they stood then, with their source, and what was used for it.
ALTER TABLE "instrument_check" ADD COLUMN     "nominal" DECIMAL,
ADD COLUMN     "nominal_text" TEXT,
ADD COLUMN     "reference" TEXT,
ADD COLUMN     "source" TEXT,
ADD COLUMN     "tolerance" DECIMAL,
ADD COLUMN     "tolerance_text" TEXT,
ADD COLUMN     "unit" TEXT;

alter table instrument_check add constraint instrument_check_bounds_whole check (num_nonnulls(nominal, nominal_text, tolerance, tolerance_text, unit, source) in (0, 6));
alter table instrument_check add constraint instrument_check_tolerance_there check (tolerance >= 0 and tolerance < 'Infinity');
-- guard_append_only granted the columns of its day.
grant insert (nominal, nominal_text, reference, source, tolerance, tolerance_text, unit) on instrument_check to curebook_app;
