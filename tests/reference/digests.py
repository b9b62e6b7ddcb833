# An independent check of every digest of a logbook, written from docs/formats.md alone and run by
# hand: python3 tests/reference/digests.py FILE. It reads the file and writes nothing.
import sqlite3,sys,struct,hashlib
db=sqlite3.connect(f'file:{sys.argv[1]}?mode=ro',uri=True); db.text_factory=bytes
tables=[r[0].decode() for r in db.execute("select name from sqlite_schema where type='table'")]
own=sqlite3.connect(':memory:')
def info(t):
    out=[]
    for cid,name,typ,nn,df,pk in db.execute(f'pragma table_info({t})'):
        silent=('none',)
        if df is not None: silent=('v',db.execute('select '+df.decode()).fetchone()[0])
        elif not nn: silent=('v',None)
        out.append((name.decode(),silent,pk))
    return out
I={t:info(t) for t in tables}
rec=[t for t in tables if any(c[0]=='entry' for c in I[t])]
kind={}
for t in rec:
    s=db.execute("select sql from sqlite_schema where name=?",(t+'_kind',)).fetchone()[0].decode()
    kind[t]=s.split(" IS NOT '")[1].split("'")[0]
def row(t,r):
    b=b'r'+bytes([len(t)])+t.encode()
    for i,((n,silent,pk),v) in enumerate(zip(I[t],r)):
        if silent[0]=='v' and silent[1]==v and type(silent[1])==type(v): continue
        b+=bytes([i+1])
        if v is None: b+=b'\0'
        elif isinstance(v,int): b+=b'\x01'+struct.pack('<q',v)
        else:
            ty=TY[t][i]; b+=bytes([ty])+struct.pack('<I',len(v))+v
    return b+b'\0'
TY={t:[{b'TEXT':3,b'BLOB':4}.get(r[2],1) for r in db.execute(f'pragma table_info({t})')] for t in tables}
rows={}
for t in rec:
    key=','.join(c[0] for c in sorted((c for c in I[t] if c[2]),key=lambda c:c[2]))
    d=rows[t]={}
    for r in db.execute(f'select * from {t} order by {key}'): d.setdefault(r[0],[]).append(r)
bykind={}
for t in sorted(rec,key=lambda t:(kind[t],t!=kind[t],t)): bykind.setdefault(kind[t],[]).append(t)
E={c[0]:i for i,c in enumerate(I['entry'])}
book=db.execute('select id from book').fetchone()[0]
dig=dict(db.execute('select act,digest from act_digest'))
prev={};acts={};n=0;bad=0
for r in db.execute('select * from entry order by laptop,sequence'): acts.setdefault(r[E['act']],[]).append(r)
for act,es in acts.items():
    lap=es[0][E['laptop']]
    tag=b'groovekeeper act 1'
    b=struct.pack('<I',len(tag))+tag+book+lap+prev.get(lap,bytes(32))+act+struct.pack('<q',es[0][E['sequence']])
    for e in es:
        b+=row('entry',e)
        for t in bykind.get(e[E['kind']].decode(),[]):
            for r in rows[t].get(e[E['id']],[]): b+=row(t,r)
    b+=b'e'+struct.pack('<q',len(es))
    h=hashlib.blake2b(b,digest_size=32).digest(); n+=1
    if dig.get(act)!=h: bad+=1
    prev[lap]=dig.get(act)
print(n,'acts',bad,'differ',len(dig),'digests')
