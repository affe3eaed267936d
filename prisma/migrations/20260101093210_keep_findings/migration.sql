-- What was read outside a method's limits and is used all the same stands with the result that rests on it.
alter table result add column findings text;
alter table result add constraint result_findings_of_computed check (findings is null or (made_by = 'computed' and refusal_code is null));
grant insert (findings) on result to curebook_app;
