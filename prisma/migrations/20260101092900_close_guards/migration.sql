-- A guard is called by its trigger alone.
revoke execute on function guard_withdrawal() from public;
revoke execute on function refuse_withdrawn() from public;
